export * from "./event-store.ts";
