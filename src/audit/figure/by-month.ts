import { addDays, type CivilDate } from "../../core/calendar/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { audit } from "./audit.ts";
import type { Figure, Period } from "./figure.ts";
import { firstOfMonth, periodOf } from "./period.ts";
import type { AuditRules } from "./scene.ts";

export interface MonthOfFigure {
  readonly from: CivilDate;
  readonly figure: Figure;
  readonly provisional: boolean;
}

const MONTHS = 12;
const monthOf = (date: CivilDate): number => Number(date.slice(0, 4)) * MONTHS + Number(date.slice(5, 7)) - 1;

/** How many months a period touches. */
export const monthsTouched = ({ from, to }: Period): number => monthOf(addDays(to, -1)) - monthOf(from) + 1;

/** The figure of each month of a period, or of each span of some months; the first and the last may be cut by it. */
export function figuresByMonth(
  table: AuditTable,
  measure: Measure,
  period: Period,
  rules: AuditRules,
  size = 1,
): readonly MonthOfFigure[] {
  const months: MonthOfFigure[] = [];
  for (let from = period.from; from < period.to;) {
    const next = firstOfMonth(from, size - (monthOf(from) % size));
    const to = next < period.to ? next : period.to;
    const { figures, provisionalFrom } = audit(table, [measure], periodOf(table, from, to), [], rules);
    const [figure] = figures;
    if (figure) months.push({ from, figure, provisional: to > provisionalFrom });
    from = to;
  }
  return months;
}
