import {
  checkTable,
  curveGuards,
  curvesOf,
  figuresByMonth,
  monthsTouched,
  lineStates,
  monitorService,
  periodOf,
  timeToEvent,
  type AuditRules,
  type AuditTable,
  type LineStates,
  type Measure,
  type Period,
} from "../../audit/index.ts";
import { addDays, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import {
  chartInput,
  rateMonths,
  rateSpan,
  type ChartInput,
  type CurveDay,
  type RateMonth,
} from "../../figure/index.ts";

/** What a plate is drawn of. */
interface Counted {
  readonly table: AuditTable;
  readonly measure: Measure;
  readonly period: Period;
  readonly rules: AuditRules;
}

/**
 * The rate of each month of the period, or of each quarter or year where a plate of the width holds no more; the first and
 * the last may be cut by the period.
 */
export function ratesOf(
  { table, measure, period, rules }: Counted,
  width: number,
): { readonly span: ReturnType<typeof rateSpan>["span"]; readonly months: readonly RateMonth[] } {
  const { span, months } = rateSpan(monthsTouched(period), width);
  return { span, months: rateMonths(figuresByMonth(table, measure, period, rules, months), span) };
}

/** The measure watched by what lies before the period; undefined when the table does not reach back. */
export function chartOf({ table, measure, period, rules }: Counted): ChartInput | undefined {
  let first: CivilDate | undefined;
  for (const { placed } of table.lines) {
    const on = placed && localDate(placed);
    if (on !== undefined && (first === undefined || on < first)) first = on;
  }
  if (first === undefined || first >= period.from) return undefined;
  const base = periodOf(table, addDays(first, 0), period.from);
  try {
    const [chart] = monitorService(table, [measure], base, period, rules).charts;
    return chart && chartInput(chart, period, rules.limits.signalChance);
  } catch (fault) {
    // no line-days on one side of the period's start: there is nothing to hold the period against
    if (fault instanceof RangeError) return undefined;
    throw fault;
  }
}

const STATES = new WeakMap<AuditTable, { readonly limits: AuditRules["limits"]; readonly states: LineStates }>();

/** Where the lines are, day by day, or why that cannot be told; undefined but for blocked lines. Of every line there is. */
export function statesOf({ table, measure, rules }: Omit<Counted, "period">, last: number): LineStates | undefined {
  const { numerator } = measure;
  if (numerator.count !== "events" || numerator.event !== "occlusion") return undefined;
  const known = STATES.get(table);
  if (known?.limits === rules.limits) return known.states;
  const days = Array.from({ length: last + 1 }, (_, day) => day);
  const { facts } = checkTable(table, rules.limits, rules.surveillance);
  const states = lineStates(facts, days, rules.limits);
  STATES.set(table, { limits: rules.limits, states });
  return states;
}

interface LineCurve {
  readonly lines: number;
  readonly events: number;
  readonly otherEnds: number;
  readonly days: readonly CurveDay[];
  /** Fewer events than the policy's least: then no chance is drawn. */
  readonly tooFew: boolean;
  /** What must be said beside it: ends nobody knows, one line or one person too much of it. */
  readonly guards: ReturnType<typeof curveGuards>;
}

const CURVES = new WeakMap<AuditTable, Map<string, LineCurve>>();

/** The one curve of all lines, day by day. It runs over every line there is, so it is worked out once for a measure. */
export function curveOf({ table, measure, rules }: Omit<Counted, "period">, last: number): LineCurve | undefined {
  const known = CURVES.get(table) ?? new Map<string, LineCurve>();
  CURVES.set(table, known);
  const { level, atRiskLeast, fewestForEstimate } = rules.limits;
  const key = [measure.id, last, level, atRiskLeast, fewestForEstimate, rules.surveillance.name].join(" ");
  const before = known.get(key);
  if (before) return before;
  const { facts } = checkTable(table, rules.limits, rules.surveillance);
  const followed = timeToEvent(facts, measure);
  if (followed.lines.length === 0) return undefined;
  const days = Array.from({ length: last + 1 }, (_, day) => day);
  const [curve] = curvesOf(followed, undefined, days, rules.limits).curves;
  if (!curve) return undefined;
  const { lines, events, otherEnds, points, tooFew } = curve;
  // the other ends are drawn from above, and need no word
  const guards = curveGuards(followed, rules.limits).filter(({ guard }) => guard !== "otherEnds");
  const drawn = { lines, events, otherEnds, days: points, tooFew, guards };
  known.set(key, drawn);
  return drawn;
}
