export {
  checkRows,
  claimedEvent,
  claimOf,
  QUALITY_RULES,
  ratioIsPossible,
  type CheckedTable,
  type QualityCode,
  type QualityIssue,
  type Severity,
} from "./check-table.ts";
export { checkColumns, checkInSteps, isChecked, type CheckedColumns } from "./check-packed.ts";
export { holdsLumens } from "./row-rules.ts";
export { ratioAgrees } from "./scan-lines.ts";
export { checkTable } from "./checked-table.ts";
export { wardMonthDays, type NoShare, type WardMonthDays } from "./ward-months.ts";
