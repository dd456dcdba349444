export * from "./sql-connection.ts";
