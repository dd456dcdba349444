export * from "./length-input.ts";
export * from "./expected-length.ts";
