export { sqlEventStore } from "./sql-event-store.ts";
