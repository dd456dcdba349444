export * from "./path.ts";
export * from "./poisson-cusum.ts";
export * from "./outcome-cusum.ts";
export * from "./run-length.ts";
export * from "./event-run-length.ts";
