export * from "./rate.ts";
export * from "./rate-ratio.ts";
export * from "./mantel-haenszel.ts";
export * from "./direct-standardisation.ts";
export * from "./standardised-ratio.ts";
export * from "./large-sample-ratio.ts";
