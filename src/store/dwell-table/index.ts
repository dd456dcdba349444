export { dwellMigrations } from "./dwell-migrations.ts";
export { sqlDwellStore } from "./sql-dwell-store.ts";
