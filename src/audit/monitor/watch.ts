import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { exposureCusum } from "../../core/control-chart/index.ts";
import { type LineClock } from "../../core/dwell/index.ts";
import { clusterAgainstBaseline, type ClusterSurprise } from "../../core/incidence/index.ts";
import { day } from "../../core/quantity/index.ts";
import { countEvents, type AuditRules, type CountedEvent, type Period } from "../figure/index.ts";
import { type LineFacts } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { dailyDays } from "./daily-days.ts";
import { sharedExposures, type SharedExposures } from "./shared-exposure.ts";

/** A base that is frozen until a person changes it with a reason. */
export interface WatchBase {
  readonly events: number;
  readonly days: number;
}

export interface WatchPoint {
  readonly on: CivilDate;
  readonly events: number;
  readonly lineDays: number;
  readonly expected: number;
  /** The sum after this day, before any reset. */
  readonly sum: number;
  readonly signal: boolean;
}

/** A signal means "look": the record first, then who was treated, then practice. */
export interface Signal {
  readonly on: CivilDate;
  /** The first day since the sum last stood at zero: the run that made the signal. */
  readonly since: CivilDate;
  readonly events: number;
  readonly lineDays: number;
  readonly expected: number;
  /** The run against the base with the doubt of the base inside. It was picked for its events: read it as a size. */
  readonly surprise: ClusterSurprise;
  /** Less likely than the policy's chance even so. */
  readonly strong: boolean;
  readonly provisional: boolean;
  readonly lines: readonly { readonly line: string; readonly on: CivilDate }[];
  readonly shared: SharedExposures;
}

export interface Watch {
  readonly clock: LineClock;
  readonly points: readonly WatchPoint[];
  readonly signals: readonly Signal[];
  readonly decision: number;
}

/**
 * The daily sum of one measure against a frozen base, and every signal with its line list.
 *   S = max(0, S' + x ln R - (R - 1) base rate x line-days), signal at S >= decision, back to zero after it
 * Units: natural log of a likelihood ratio, days of the measure's clock. Holds: an event measure, base above zero events
 * and days, else RangeError. The last days are provisional: late entries may still lift the sum.
 * Source: `exposureCusum`. Example: see reference/by-hand/monitor.test.ts.
 */
export function watch(
  lines: readonly LineFacts[],
  measure: Measure,
  period: Period,
  base: WatchBase,
  decision: number,
  rules: AuditRules & { readonly provisionalFrom: CivilDate },
): Watch {
  const { numerator } = measure;
  if (numerator.count !== "events" || measure.clock === "none")
    throw new RangeError(`The measure ${measure.id} counts no events over days; watch one that does.`);
  if (!(base.events > 0 && base.days > 0))
    throw new RangeError(`The base holds ${base.events} events in ${base.days} days; both must be above zero.`);
  const clock = measure.clock;
  const days = dailyDays(lines, period, clock);
  const { counted } = countEvents(lines, numerator, period, rules.surveillance);
  const opens = dayNumber(period.from);
  const events = new Float64Array(days.length);
  for (const { on } of counted) events[on - opens] = (events[on - opens] as number) + 1;
  const rate = base.events / base.days;
  const steps = Array.from(days, (lineDays, at) => ({ events: events[at] as number, expected: rate * lineDays }));
  const path = exposureCusum(steps, rules.limits.watchRatio, { decision });
  const points = path.map(({ value, signal }, at): WatchPoint => ({
    on: civilDateFromDayNumber(opens + at),
    events: events[at] as number,
    lineDays: days[at] as number,
    expected: (steps[at] as { readonly expected: number }).expected,
    sum: value,
    signal,
  }));
  const signals = points.flatMap((point, at) =>
    point.signal ? [signalAt(points, at, { lines, counted, base, clock, opens, rules })] : [],
  );
  return { clock, points, signals, decision };
}

function signalAt(
  points: readonly WatchPoint[],
  at: number,
  scene: {
    readonly lines: readonly LineFacts[];
    readonly counted: readonly CountedEvent[];
    readonly base: WatchBase;
    readonly clock: LineClock;
    readonly opens: number;
    readonly rules: AuditRules & { readonly provisionalFrom: CivilDate };
  },
): Signal {
  let start = at;
  while (start > 0 && !(points[start - 1] as WatchPoint).signal && (points[start - 1] as WatchPoint).sum > 0)
    start -= 1;
  const run = points.slice(start, at + 1);
  const sum = (part: (point: WatchPoint) => number) => run.reduce((total, point) => total + part(point), 0);
  const [events, lineDays] = [sum((point) => point.events), sum((point) => point.lineDays)];
  const cluster = scene.counted.filter(({ on }) => on >= scene.opens + start && on <= scene.opens + at);
  const surprise = clusterAgainstBaseline(
    { events, days: day(lineDays), clock: scene.clock },
    { events: scene.base.events, days: day(scene.base.days), clock: scene.clock },
  );
  const { on } = points[at] as WatchPoint;
  return {
    on,
    since: (points[start] as WatchPoint).on,
    events,
    lineDays,
    expected: sum((point) => point.expected),
    surprise,
    strong: surprise.asManyOrMoreMidP < scene.rules.limits.signalChance,
    provisional: dayNumber(on) >= dayNumber(scene.rules.provisionalFrom),
    lines: cluster.map((event) => ({ line: event.line.row.key, on: civilDateFromDayNumber(event.on) })),
    shared: sharedExposures(
      cluster.map(({ line }) => line),
      presentIn(scene.lines, scene.opens + start, scene.opens + at),
      scene.rules.limits,
    ),
  };
}

/** Lines in place on any day of a run: what the lines of a cluster are held against. */
const presentIn = (lines: readonly LineFacts[], first: number, last: number): readonly LineFacts[] =>
  lines.filter(({ placedOn, endedOn }) => (placedOn as number) <= last && (endedOn ?? last) >= first);
