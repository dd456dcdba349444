export * from "./complication-table.ts";
export * from "./expected-complications.ts";
