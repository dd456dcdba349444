export * from "./civil-date.ts";
export * from "./age.ts";
export * from "./instant.ts";
export * from "./zone.ts";
export * from "./instant-after.ts";
