export * from "./length-input.ts";
