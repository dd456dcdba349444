export { packedOf, tableOf } from "./packed-table.ts";
export { rowAt } from "./packed-row.ts";
export { packRows } from "./pack-rows.ts";
export * from "./packed-lines.ts";
export * from "./packed-checks.ts";
export * from "./packed-facts.ts";
export { packReferrals, referralAt, type PackedReferrals } from "./packed-referrals.ts";
export * from "./same-line.ts";
export { wordList, type WordList } from "./word-list.ts";
