export * from "./missing.ts";
