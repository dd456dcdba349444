export { lotRowsFromRegister, lotsToActOn, type LotRow, type PackLots } from "./lot-list.ts";
export {
  monthPack,
  type EnoughToSee,
  type FunnelUnit,
  type ListedLine,
  type ListGap,
  type MonthFigure,
  type MonthPack,
  type PackExtras,
} from "./month-pack.ts";
export type { MarkedChange, TimeMemory } from "./time-memory.ts";
export type { MonthAction } from "./month-action.ts";
export { noteSignals, type NotedSignal, type NotingRules } from "./note-signals.ts";
export { proposedBases, signalEntry, type ProposedBase } from "./memory-entry.ts";
