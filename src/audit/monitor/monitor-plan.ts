import { decisionLimit, eventsToSignal } from "../../core/control-chart/index.ts";
import { countLimits, type Limits } from "../../core/incidence/index.ts";
import type { CountLimits } from "../../policy/index.ts";

/** What one chart would watch: its measure (and stratum, if split) and what a quiet base period held. */
export interface WatchedEvents {
  readonly name: string;
  readonly baseEvents: number;
  readonly baseDays: number;
  /** Line-days the service counts in a year now. */
  readonly daysPerYear: number;
}

export type Picture =
  | "each event as a case"
  | "sums of gaps and a quarterly chart"
  | "quarterly chart"
  | "monthly chart";

export interface ChartPlan {
  readonly name: string;
  readonly expectedPerYear: number;
  readonly picture: Picture;
  /** Undefined where no alarm is kept: too few events are expected, or the base has too few. */
  readonly alarm:
    | {
        readonly ratio: number;
        /** The sum signals at this value or above. */
        readonly decision: number;
        /** Of this one chart: the service's budget times the number of charts with an alarm. */
        readonly yearsBetweenFalseSignals: number;
        /** Average months from a rise by the ratio to the signal. */
        readonly monthsToShow: number;
        readonly eventsToShow: number;
      }
    | undefined;
  /** The base rate per 1000 days with its exact limits: how well the chart knows what it calls quiet. */
  readonly base: Limits & { readonly perThousand: number; readonly events: number; readonly enough: boolean };
}

export interface MonitorPlan {
  readonly charts: readonly ChartPlan[];
  readonly alarms: number;
  readonly monthsBetweenFalseSignals: number;
  /** Chance of at least one false signal in a quiet year, all charts together. */
  readonly falseSignalChanceInAYear: number;
}

const MONTHS = 12;
const PER = 1000;

/**
 * How each kind of event is to be watched, by how many are expected in a year, under one false-alarm budget.
 *   E = base rate x days a year; each of the K charts that keep an alarm gets budget x K years, h by `decisionLimit(R, E x years)`
 *   months to show = 12 x events to signal at rate R / (R E); chance in a quiet year = 1 - exp(-12 / budget months)
 * Units: events a year, months. Holds: base and year above zero days, else RangeError; a base of few events is told by
 * `enough` and keeps no alarm, for a chart on it may signal often or never. The chance takes signals as evenly spread.
 * Source: own closed form of the run length (core/control-chart); scheme: common practice, no source.
 * Example: 20 events a year, one chart, 60 months: decision 3.33172, a doubling shows in 4.04 months.
 */
export function monitorPlan(watched: readonly WatchedEvents[], limits: CountLimits): MonitorPlan {
  const expected = watched.map(({ baseEvents, baseDays, daysPerYear }) => {
    if (!(baseDays > 0 && daysPerYear > 0))
      throw new RangeError(`There are ${baseDays} base days and ${daysPerYear} a year; both must be above zero.`);
    return (baseEvents / baseDays) * daysPerYear;
  });
  const keeps = watched.map(
    ({ baseEvents }, at) => (expected[at] as number) >= limits.alarmFrom && baseEvents >= limits.baseEvents,
  );
  const alarms = keeps.filter(Boolean).length;
  const years = (limits.falseAlarmMonths * alarms) / MONTHS;
  return {
    charts: watched.map((one, at) => chartPlan(one, expected[at] as number, keeps[at] ? years : undefined, limits)),
    alarms,
    monthsBetweenFalseSignals: limits.falseAlarmMonths,
    falseSignalChanceInAYear: alarms === 0 ? 0 : -Math.expm1(-MONTHS / limits.falseAlarmMonths),
  };
}

function chartPlan(
  { name, baseEvents, baseDays }: WatchedEvents,
  expected: number,
  years: number | undefined,
  limits: CountLimits,
): ChartPlan {
  const { lower, upper } = countLimits(baseEvents, limits.level, "exact");
  const perDay = PER / baseDays;
  return {
    name,
    expectedPerYear: expected,
    picture: pictureFor(expected, limits),
    alarm: years === undefined ? undefined : alarmFor(expected, years, limits.watchRatio),
    base: {
      perThousand: baseEvents * perDay,
      lower: lower * perDay,
      upper: upper * perDay,
      events: baseEvents,
      enough: baseEvents >= limits.baseEvents,
    },
  };
}

function pictureFor(expected: number, { alarmFrom, gapChartBelow, monthlyFrom }: CountLimits): Picture {
  if (expected < alarmFrom) return "each event as a case";
  if (expected < gapChartBelow) return "sums of gaps and a quarterly chart";
  return expected < monthlyFrom ? "quarterly chart" : "monthly chart";
}

function alarmFor(expected: number, years: number, ratio: number): NonNullable<ChartPlan["alarm"]> {
  const decision = decisionLimit(ratio, expected * years);
  const events = eventsToSignal(ratio, decision, ratio);
  return {
    ratio,
    decision,
    yearsBetweenFalseSignals: years,
    monthsToShow: (MONTHS * events) / (ratio * expected),
    eventsToShow: events,
  };
}
