export * from "./event-store.ts";
export * from "./verify-store.ts";
