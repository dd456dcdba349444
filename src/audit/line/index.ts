export * from "./line-row.ts";
export { lineRowsFromRegister, type RegisterForCount } from "./line-rows.ts";
export { daysKept, lineFacts, provisionalFrom, ratioOf, type DatedEvent, type LineFacts } from "./line-facts.ts";
