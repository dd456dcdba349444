export * from "./care-policy.ts";
export * from "./due.ts";
export * from "./still-needed.ts";
export * from "./removal.ts";
export * from "./lytic.ts";
export * from "./patency.ts";
