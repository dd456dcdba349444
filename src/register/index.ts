export * from "./plan/plan-event.ts";
export * from "./event/index.ts";
export * from "./store/index.ts";
