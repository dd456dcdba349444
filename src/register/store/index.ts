export * from "./event-store.ts";
export * from "./verify-store.ts";
export * from "./dwell-store.ts";
