export * from "./line/index.ts";
export * from "./quality/index.ts";
export * from "./measure/index.ts";
export * from "./figure/index.ts";
export * from "./monitor/index.ts";
export * from "./follow/index.ts";
export * from "./exchange/index.ts";
export * from "./pack/index.ts";
