export * from "./stock-catheter.ts";
export * from "./ratio.ts";
export * from "./least-vein.ts";
