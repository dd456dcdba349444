export * from "./suppress.ts";
