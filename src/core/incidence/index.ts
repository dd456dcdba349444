export * from "./count/index.ts";
export * from "./rate/index.ts";
export * from "./proportion/index.ts";
export * from "./doubt/index.ts";
