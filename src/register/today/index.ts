export * from "./today-list.ts";
export * from "./review-list.ts";
