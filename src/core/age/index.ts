export * from "./age-group.ts";
