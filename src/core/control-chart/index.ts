export * from "./shewhart/index.ts";
export * from "./cusum/index.ts";
