export { lotRowsFromRegister, lotsToActOn, type LotRow, type PackLots } from "./lot-list.ts";
export {
  monthPack,
  type EnoughToSee,
  type FunnelUnit,
  type ListedLine,
  type MonthAction,
  type MonthFigure,
  type MonthPack,
  type PackExtras,
} from "./month-pack.ts";
