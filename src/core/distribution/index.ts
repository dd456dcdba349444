export * from "./normal.ts";
export * from "./special/index.ts";
export * from "./count/index.ts";
export * from "./continuous/index.ts";
