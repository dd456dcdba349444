export * from "./canonical-json.ts";
export * from "./event.ts";
export * from "./seal.ts";
