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
