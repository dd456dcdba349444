export * from "./sql/index.ts";
export * from "./migration/index.ts";
export * from "./event-table/index.ts";
export * from "./memory/index.ts";
export * from "./sqlite/index.ts";
export * from "./postgresql/index.ts";
export * from "./open-store.ts";
export * from "./backup/index.ts";
