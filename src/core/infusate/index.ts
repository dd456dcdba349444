export * from "./infusate.ts";
export * from "./bag-osmolarity.ts";
export * from "./judge-route.ts";
