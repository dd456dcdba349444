import type { CivilDate } from "../../core/calendar/index.ts";
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

/** The figure of each month of a period; the first and the last may be cut by it. */
export function figuresByMonth(
  table: AuditTable,
  measure: Measure,
  period: Period,
  rules: AuditRules,
): readonly MonthOfFigure[] {
  const months: MonthOfFigure[] = [];
  for (let from = period.from; from < period.to;) {
    const next = firstOfMonth(from, 1);
    const to = next < period.to ? next : period.to;
    const { figures, provisionalFrom } = audit(table, [measure], periodOf(table, from, to), [], rules);
    const [figure] = figures;
    if (figure) months.push({ from, figure, provisional: to > provisionalFrom });
    from = to;
  }
  return months;
}
