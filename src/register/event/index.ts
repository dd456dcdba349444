export * from "./canonical-json.ts";
export * from "./event.ts";
export * from "./seal.ts";
export * from "./merkle-tree.ts";
export * from "./raise-event.ts";
