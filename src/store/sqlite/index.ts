export { openSqliteStore } from "./event-store.ts";
export { openEngine, openSqlite } from "./open-sqlite.ts";
export { sqliteConnection } from "./sqlite-connection.ts";
