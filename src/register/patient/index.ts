export * from "./patient-events.ts";
export * from "./patient-view.ts";
