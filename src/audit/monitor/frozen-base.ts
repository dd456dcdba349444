import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { eventsToSignal } from "../../core/control-chart/index.ts";
import { periodOf, type Period } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { ChartPlan, MonitorPlan } from "./monitor-plan.ts";

/** A base as a person set it: its numbers stand whatever the table says of those days later. */
export interface FrozenBase {
  /** The first day the sum watches. */
  readonly to: CivilDate;
  readonly events: number;
  readonly lineDays: number;
  readonly decision: number;
  readonly targetPerThousand: number | undefined;
}

const MONTHS = 12;

/** A frozen base is watched from the day after it without a break, so that next month's sum goes on where this one ends. */
export const watchedFrom = (table: AuditTable, now: Period, base: Pick<FrozenBase, "to"> | undefined): Period =>
  base && dayNumber(base.to) < dayNumber(now.to) ? periodOf(table, base.to, now.to) : now;

/**
 * A plan in which some decisions are frozen: what a fixed decision costs and shows at the volume of today.
 *   E events a year at the base; years between false signals L(h, 1) / E; months to show 12 L(h, R) / (R E),
 *   L by `eventsToSignal`; months between false signals of all charts together 1 / sum 1 / (12 years)
 * Units: years, months. Holds: as `monitorPlan`. Source: own closed form of the run length (core/control-chart).
 * Example: R 2, decision 3, 20 events a year: 68.636 / 20 = 3.43 years.
 */
export function withFrozenDecisions(plan: MonitorPlan, frozen: Readonly<Record<string, FrozenBase>>): MonitorPlan {
  if (!plan.charts.some(({ name, alarm }) => alarm && frozen[name])) return plan;
  const charts = plan.charts.map((chart): ChartPlan => {
    const decision = frozen[chart.name]?.decision;
    if (decision === undefined || !chart.alarm) return chart;
    const { expectedPerYear } = chart;
    const { ratio } = chart.alarm;
    const events = eventsToSignal(ratio, decision, ratio);
    return {
      ...chart,
      alarm: {
        ratio,
        decision,
        yearsBetweenFalseSignals: eventsToSignal(ratio, decision, 1) / expectedPerYear,
        monthsToShow: (MONTHS * events) / (ratio * expectedPerYear),
        eventsToShow: events,
      },
    };
  });
  const perMonth = charts.reduce(
    (sum, { alarm }) => sum + (alarm ? 1 / (MONTHS * alarm.yearsBetweenFalseSignals) : 0),
    0,
  );
  return {
    ...plan,
    charts,
    monthsBetweenFalseSignals: 1 / perMonth,
    falseSignalChanceInAYear: -Math.expm1(-MONTHS * perMonth),
  };
}
