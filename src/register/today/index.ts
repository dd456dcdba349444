export * from "./today-list.ts";
