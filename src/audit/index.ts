export * from "./line/index.ts";
