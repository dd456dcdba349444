export * from "./stock-catheter.ts";
export * from "./ratio.ts";
