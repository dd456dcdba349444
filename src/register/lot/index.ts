export * from "./lot-events.ts";
export * from "./lot-view.ts";
