export * from "./self-test.ts";
