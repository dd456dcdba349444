import { addDays, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { poissonSignalCount } from "../../core/distribution/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { countLimits } from "../../core/incidence/index.ts";
import {
  audit,
  figuresByMonth,
  firstOfMonth,
  periodOf,
  type AuditRules,
  type Figure,
  type MonthOfFigure,
  type Period,
} from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import { COMPARED, type Measure } from "../measure/index.ts";
import { monitorPlan, type ChartPlan } from "../monitor/index.ts";

/** How far one kind of event is on its way to a base. */
export interface BeginningOf {
  readonly measure: string;
  /** Counted since the first line, with its exact limits. */
  readonly figure: Figure;
  /** The same month by month, the last twelve of them. */
  readonly months: readonly MonthOfFigure[];
  /** Days from the end of the count until the base is full: at this pace, and at the limits of the pace. */
  readonly daysToGo: { readonly pace: number; readonly soonest: number; readonly latest: number } | undefined;
  /** Lines still to be placed until then, at this pace. */
  readonly linesToGo: number | undefined;
  readonly expectedInMonth: number;
  /** So many in one month would be noticed; undefined before the first event. */
  readonly noticed: number | undefined;
  /** As the chart will be planned once there is a base; undefined without an event or a day. */
  readonly plan: ChartPlan | undefined;
}

/** What can be said in the first year, while no line lies before the twelve months of the pack. */
export interface Beginning {
  /** The days counted; undefined while no line was placed. */
  readonly period: Period | undefined;
  readonly linesPlaced: number;
  /** Events a base needs: the policy's. */
  readonly needed: number;
  /** The first month whose pack has lines before its twelve months. */
  readonly firstPack: CivilDate | undefined;
  readonly measures: readonly BeginningOf[];
}

const [YEAR, MONTHS] = [365.25, 12];

/**
 * What a service's first months can say of the events it will watch: counts with limits, and the way to a base.
 *   pace = events / days since the first line; days to go = (needed - events) / pace, at the exact limits of the count too
 *   the plan is that of `monitorPlan`, were these days the base
 * Units: events, days, lines. Holds: any table; nothing is foretold without an event. Source: Garwood F 1936, Biometrika
 * 28:437 (limits); the needed events are the policy's (common practice). Example: test/specification/pack-doubt.test.ts.
 */
export function beginningOf(
  table: AuditTable,
  measures: readonly Measure[],
  month: Period,
  rules: AuditRules,
): Beginning {
  const needed = rules.limits.baseEvents;
  const asOf = localDate(table.asOf);
  const until = dayNumber(asOf) < dayNumber(month.to) ? addDays(asOf, 1) : month.to;
  const placed = table.lines
    .flatMap(({ placed: on }) => (on ? [localDate(on)] : []))
    .filter((on) => on < until)
    .sort();
  const first = placed[0];
  if (first === undefined) return { period: undefined, linesPlaced: 0, needed, firstPack: undefined, measures: [] };
  const period = periodOf(table, first, until);
  const elapsed = dayNumber(until) - dayNumber(first);
  const watched = measures.filter(({ id }) => COMPARED.has(id));
  const lines = measures.filter(({ id }) => id === "placed");
  const { figures } = audit(table, [...watched, ...lines], period, [], rules);
  const linesPlaced = figures.find(({ measure }) => measure === "placed")?.numerator ?? 0;
  const told = figures.filter(({ measure, form }) => COMPARED.has(measure) && form !== "never written down");
  const counted = told.filter(({ numerator, denominator = 0 }) => numerator > 0 && denominator > 0);
  const { charts } = monitorPlan(
    counted.map(({ measure, numerator, denominator = 0 }) => ({
      name: measure,
      baseEvents: numerator,
      baseDays: denominator,
      daysPerYear: (denominator / elapsed) * YEAR,
    })),
    // as it will be watched once it has its base: none has one yet
    { ...rules.limits, baseEvents: 0 },
  );
  return {
    period,
    linesPlaced,
    needed,
    // the twelve months of a pack must begin after the first line
    firstPack: firstOfMonth(first, MONTHS),
    measures: told.map((figure): BeginningOf => {
      const { measure, numerator } = figure;
      const missing = needed - numerator;
      const expectedInMonth = (numerator / elapsed) * (YEAR / MONTHS);
      return {
        measure,
        figure,
        months: figuresByMonth(table, watched.find(({ id }) => id === measure) as Measure, period, rules).slice(
          -MONTHS,
        ),
        expectedInMonth,
        noticed: numerator > 0 ? poissonSignalCount(expectedInMonth, (1 - rules.limits.level) / 2) : undefined,
        daysToGo: numerator > 0 && missing > 0 ? daysToGo(numerator, missing, elapsed, rules) : undefined,
        linesToGo: numerator > 0 && missing > 0 ? (missing * linesPlaced) / numerator : undefined,
        plan: charts.find(({ name }) => name === measure),
      };
    }),
  };
}

function daysToGo(
  events: number,
  missing: number,
  elapsed: number,
  { limits }: AuditRules,
): NonNullable<BeginningOf["daysToGo"]> {
  const { lower, upper } = countLimits(events, limits.level, "exact");
  const at = (count: number): number => (missing * elapsed) / count;
  return { pace: at(events), soonest: at(upper), latest: at(lower) };
}
