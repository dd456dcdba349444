export * from "./sql/index.ts";
export * from "./sqlite/index.ts";
export * from "./postgresql/index.ts";
export * from "./people/index.ts";
export { openEventTable, type RecordPort } from "./event-table.ts";
