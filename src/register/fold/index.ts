export * from "./history.ts";
export * from "./dispute.ts";
