export * from "./line-row.ts";
export { LINE_COLUMNS, type LineColumn } from "./line-columns.ts";
export { momentOfInstant } from "./moment-of-instant.ts";
export { lineRowsFromRegister, type RegisterForCount } from "./line-rows.ts";
export { daysKept, lineFacts, provisionalFrom, ratioOf, type DatedEvent, type LineFacts } from "./line-facts.ts";
export { SEEN_AT_REMOVAL } from "./seen-at-removal.ts";
export { daysAfterRemoval } from "./after-removal.ts";
