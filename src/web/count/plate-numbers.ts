import {
  audit,
  checkTable,
  curveGuards,
  curvesOf,
  firstOfMonth,
  lineStates,
  monitorService,
  periodOf,
  timeToEvent,
  type AuditRules,
  type AuditTable,
  type Figure,
  type Glance,
  type LineStates,
  type Measure,
  type Period,
} from "../../audit/index.ts";
import { addDays, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import {
  chartInput,
  spanValueOf,
  type ChartInput,
  type CurveDay,
  type SpanPlate,
  type SpanValue,
  type ThenAndNow,
} from "../../figure/index.ts";
import { sayMeasure, saySpan } from "../../language/index.ts";

/** What a plate is drawn of. */
interface Counted {
  readonly table: AuditTable;
  readonly measure: Measure;
  readonly period: Period;
  readonly rules: AuditRules;
}

const EACH = [
  ["month", 1],
  ["quarter", 3],
  ["year", 12],
  ["five years", 60],
] as const;
const MONTHS = 12;

/** The first day of the span after the one that holds a date, of so many months each, counted from January of year 0. */
function nextSpan(date: CivilDate, months: number): CivilDate {
  const month = Number(date.slice(0, 4)) * MONTHS + Number(date.slice(5, 7)) - 1;
  return firstOfMonth(date, months - (month % months));
}

function spansIn(period: Period, months: number): readonly (readonly [from: CivilDate, to: CivilDate])[] {
  const spans: [CivilDate, CivilDate][] = [];
  for (let from = period.from; from < period.to;) {
    const next = nextSpan(from, months);
    const to = next < period.to ? next : period.to;
    spans.push([from, to]);
    from = to;
  }
  return spans;
}

/**
 * A measure span by span, in the shortest spans of which no more than `most` are needed; the first and the last may be
 * cut by the period.
 */
export function spansOf({ table, measure, period, rules }: Counted, most: number): Pick<SpanPlate, "each" | "spans"> {
  const [each, months] = EACH.find(([, one]) => spansIn(period, one).length <= most) ?? EACH[EACH.length - 1]!;
  const spans = spansIn(period, months).flatMap(([from, to]): readonly SpanValue[] => {
    const report = audit(table, [measure], periodOf(table, from, to), [], rules);
    const [figure] = report.figures;
    if (!figure) return [];
    return [{ ...spanValueOf(figure), name: saySpan(from, months), provisional: to > report.provisionalFrom }];
  });
  return { each, spans };
}

/** How a measure is drawn: by the thousand days of its clock, or as a share of its lines, with the figure of all. */
export const drawnAs = (
  whole: Figure,
  { numerator, clock, denominator }: Measure,
): Pick<SpanPlate, "kind" | "overName" | "interval" | "whole"> => ({
  ...(numerator.count === "events" ? { kind: "rate", overName: clock } : { kind: "share", overName: denominator }),
  interval: whole.interval,
  whole: spanValueOf(whole),
});

/** The compared rates of a glance as their plate draws them. */
export const thenAndNowOf = ({ rates }: Glance): readonly ThenAndNow[] =>
  rates.map(({ measure, now, before, direction }) => ({
    name: sayMeasure(measure),
    now: timed(now),
    before: timed(before),
    direction,
  }));

function timed(figure: Figure): ThenAndNow["now"] {
  const { counted, over, value, lower, upper } = spanValueOf(figure);
  return { events: counted, days: over, perThousand: value, lower, upper };
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
