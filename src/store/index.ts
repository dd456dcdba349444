export type { SqlConnection, SqlValue } from "./sql-connection.ts";
export * from "./people/index.ts";
