export * from "./u-chart.ts";
export * from "./gap-chart.ts";
export * from "./ewma.ts";
export * from "./run-rules.ts";
export * from "./power-chart.ts";
