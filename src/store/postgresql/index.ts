export { openPostgresql } from "./open-postgresql.ts";
