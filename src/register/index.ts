export * from "./plan-event.ts";
