export * from "./chart.ts";
export * from "./chart-fault.ts";
export * from "./lumen-answer.ts";
export { fewestLumens, type LumenEffort } from "./fewest-lumens.ts";
