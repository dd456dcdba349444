export * from "./civil-date.ts";
export * from "./age.ts";
