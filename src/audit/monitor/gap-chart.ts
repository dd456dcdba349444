import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { longExposureGap, tChartByPower, tChartLimits } from "../../core/control-chart/index.ts";
import type { LineClock } from "../../core/dwell/index.ts";
import { countEvents, type AuditRules, type Period } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { checkTable } from "../quality/index.ts";
import { dailyDays } from "./daily-days.ts";

export const GAP_FORMS = ["exponential", "power"] as const;
export type GapForm = (typeof GAP_FORMS)[number];

export interface ChartedGap {
  readonly on: CivilDate;
  /** Line-days since the event before, which may lie in the base. */
  readonly lineDays: number;
  readonly outside: "long" | "short" | undefined;
}

export type GapChart = {
  readonly measure: string;
  readonly clock: LineClock;
  readonly form: GapForm;
  readonly baseGaps: number;
} & (
  | { readonly kind: "base too small"; readonly needed: number }
  | {
      readonly kind: "charted";
      readonly centre: number;
      readonly lower: number;
      readonly upper: number;
      readonly gaps: readonly ChartedGap[];
      readonly sinceLast: number;
      /** Chance of so long a time without an event if gaps are exponential about the base's mean. */
      readonly chanceOfSoLong: number;
    }
);

const SIGMAS = 3;

/**
 * Line-days from one event to the next, against limits from the gaps of the base.
 *   exponential: `tChartLimits` at the policy's signal chance; power: `tChartByPower` at three deviations
 * Units: line-days of the measure's clock. Holds: an event measure, the base ending where the period begins, else RangeError;
 * a base of fewer gaps than the policy's base events gives no limits. Two events of one day have no line-days between them; such
 * a gap is shown and not judged, since a record of dates makes it.
 * Source: those of the two limits. Example: test/specification/count.test.ts.
 */
export function gapChart(
  table: AuditTable,
  measure: Measure,
  base: Period,
  now: Period,
  form: GapForm,
  rules: AuditRules,
): GapChart {
  const { numerator } = measure;
  if (numerator.count !== "events" || measure.clock === "none")
    throw new RangeError(`The measure ${measure.id} counts no events over days; chart one that does.`);
  if (base.to !== now.from)
    throw new RangeError(
      `The base runs to ${base.to} and the period from ${now.from}; one begins where the other ends.`,
    );
  const { facts } = checkTable(table, rules.limits, rules.surveillance);
  const whole = { ...now, from: base.from, fromOffset: base.fromOffset };
  const days = dailyDays(facts, whole, measure.clock);
  const opens = dayNumber(whole.from);
  const begins = dayNumber(now.from) - opens;
  const events = countEvents(facts, numerator, whole, rules.surveillance)
    .counted.map(({ on }) => on - opens)
    .sort((a, b) => a - b);
  const between = (from: number, to: number) => days.subarray(from + 1, to + 1).reduce((sum, own) => sum + own, 0);
  // the time before the first event is no gap: nobody knows when it began
  const gaps = events.slice(1).map((at, k) => ({ at, lineDays: between(events[k] as number, at) }));
  const baseGaps = gaps.filter(({ at }) => at < begins).map(({ lineDays }) => lineDays);
  const head = { measure: measure.id, clock: measure.clock, form, baseGaps: baseGaps.length };
  const mean = baseGaps.reduce((sum, gap) => sum + gap, 0) / baseGaps.length;
  if (baseGaps.length < rules.limits.baseEvents || !(mean > 0))
    return { ...head, kind: "base too small", needed: rules.limits.baseEvents };
  const { centre, lower, upper } = limitsOf(baseGaps, form, rules.limits.signalChance);
  const sinceLast = between(events.at(-1) as number, days.length - 1);
  return {
    ...head,
    kind: "charted",
    centre,
    lower,
    upper,
    gaps: gaps
      .filter(({ at }) => at >= begins)
      .map(({ at, lineDays }) => ({
        on: civilDateFromDayNumber(opens + at),
        lineDays,
        outside: lineDays > upper ? "long" : lineDays > 0 && lineDays < lower ? "short" : undefined,
      })),
    sinceLast,
    chanceOfSoLong: longExposureGap(sinceLast, mean),
  };
}

function limitsOf(
  gaps: readonly number[],
  form: GapForm,
  bound: number,
): { centre: number; lower: number; upper: number } {
  if (form === "power") return tChartByPower(gaps, SIGMAS);
  const { median, lower, upper } = tChartLimits(gaps, bound);
  return { centre: median, lower, upper };
}
