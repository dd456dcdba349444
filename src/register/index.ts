export * from "./plan/plan-event.ts";
export * from "./event/index.ts";
export * from "./store/index.ts";
export * from "./field/index.ts";
export * from "./catalogue.ts";
export * from "./fold/index.ts";
export * from "./line/index.ts";
