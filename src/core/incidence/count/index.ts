export * from "./limits.ts";
export * from "./against-expected.ts";
