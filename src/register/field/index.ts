export * from "./field.ts";
export * from "./missing-fields.ts";
