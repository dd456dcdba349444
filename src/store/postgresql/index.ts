export { openPostgresqlStore } from "./event-store.ts";
export { openPostgresql } from "./open-postgresql.ts";
