export * from "./right.ts";
export * from "./entry-right.ts";
export * from "./judge-entry.ts";
export * from "./patient-of.ts";
