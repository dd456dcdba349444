export {
  monthPack,
  type Direction,
  type EnoughToSee,
  type FunnelUnit,
  type ListedLine,
  type MonthAction,
  type MonthFigure,
  type MonthPack,
} from "./month-pack.ts";
