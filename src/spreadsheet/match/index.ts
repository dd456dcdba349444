export * from "./field.ts";
export * from "./date-text.ts";
export * from "./word.ts";
export * from "./matching.ts";
export * from "./ward-name.ts";
export * from "./suggest-matching.ts";
export { numberCarrier, readColumns, type ReadColumn } from "./carried-number.ts";
export * from "./swapped-columns.ts";
