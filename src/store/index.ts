export * from "./sql/index.ts";
export * from "./sqlite/index.ts";
export * from "./postgresql/index.ts";
