export * from "./row-fault.ts";
export { lineContent, lineKey } from "./line-ledger.ts";
export { EVENT_FIELDS, type SheetLine } from "./read-row.ts";
export * from "./preview.ts";
export * from "./fault-csv.ts";
export * from "./line-row-of.ts";
export { saltedKeys } from "./salted-keys.ts";
export { readKnownLines } from "./known-lines.ts";
export { linesOfRegister, type KnownLines } from "./register-lines.ts";
