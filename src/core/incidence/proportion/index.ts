export * from "./limits.ts";
