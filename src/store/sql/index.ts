export * from "./sql-connection.ts";
export * from "./held-elsewhere.ts";
