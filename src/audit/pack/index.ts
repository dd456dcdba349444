export { lotRowsFromRegister, lotsToActOn, type LotRow, type PackLots } from "./lot-list.ts";
export {
  monthPack,
  type EnoughToSee,
  type ListedLine,
  type ListGap,
  type MonthFigure,
  type MonthPack,
  type PackExtras,
} from "./month-pack.ts";
export type { MarkedChange, TimeMemory } from "./time-memory.ts";
export type { MonthAction } from "./month-action.ts";
export { noteSignals, serviceHistory, type NotedSignal, type NotingRules } from "./note-signals.ts";
export { proposedBases, signalEntry, type ProposedBase } from "./memory-entry.ts";
export type { Beginning, BeginningOf } from "./beginning.ts";
export type { PackGuard, PackGuards } from "./pack-guards.ts";
