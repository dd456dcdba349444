export * from "./refusal.ts";
export * from "./sheet-file.ts";
export * from "./encoding.ts";
export { isHeaderAgain } from "./header-row.ts";
export type { Delimiter } from "./csv-rows.ts";
export * from "./date-serial.ts";
export * from "./open-sheet.ts";
export { FILE_LIMITS } from "./limits.ts";
