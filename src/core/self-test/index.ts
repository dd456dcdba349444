export * from "./golden-numbers.ts";
export * from "./self-test.ts";
