export * from "./unit.ts";
export * from "./convert.ts";
