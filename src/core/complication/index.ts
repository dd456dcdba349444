export * from "./culture.ts";
export * from "./infection.ts";
export * from "./keep-or-remove.ts";
