export * from "./normal.ts";
