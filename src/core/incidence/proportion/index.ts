export * from "./limits.ts";
export * from "./ratio-of-sums.ts";
