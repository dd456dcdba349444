import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { shortExposureGaps, uChart, type UPoint } from "../../core/control-chart/index.ts";
import { lineDays, NOON, type LineClock } from "../../core/dwell/index.ts";
import { countEvents, firstOfMonth, silenceOf, type AuditRules, type Period, type Silence } from "../figure/index.ts";
import { provisionalFrom, type AuditTable, type LineFacts } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { checkTable } from "../quality/index.ts";
import { dailyDays } from "./daily-days.ts";
import { watchedFrom, withFrozenDecisions, type FrozenBase } from "./frozen-base.ts";
import { monitorPlan, type ChartPlan, type MonitorPlan } from "./monitor-plan.ts";
import { watch, type Watch } from "./watch.ts";

export interface ChartMonth {
  readonly from: CivilDate;
  readonly to: CivilDate;
  readonly events: number;
  readonly lineDays: number;
  /** Rate against the base with classical and exact limits; undefined with no days or no base. */
  readonly point: UPoint | undefined;
}

export interface EventGap {
  readonly on: CivilDate;
  /** Line-days since the event before. */
  readonly lineDays: number;
  /** P(so short a sum of this gap and the three before it), on the base; undefined for the first three. */
  readonly chanceOfFour: number | undefined;
}

export interface ServiceChart extends Silence {
  readonly measure: string;
  readonly plan: ChartPlan;
  /** Undefined where no alarm is kept, for the reason beside it. */
  readonly watch: Watch | undefined;
  readonly noAlarm: "too few events expected" | "base too small and no target agreed" | undefined;
  /** Agreed rate per 1000 days in the place of an own base, if there is one. */
  readonly target: number | undefined;
  readonly spans: readonly ChartMonth[];
  readonly gaps: readonly EventGap[];
  /** Line-days since the last event, or since the period began. */
  readonly sinceLast: number;
}

export interface ServiceMonitor {
  readonly base: Period;
  readonly now: Period;
  readonly plan: MonitorPlan;
  readonly charts: readonly ServiceChart[];
}

const GAPS_SUMMED = 4;
const YEAR = 365.25;
const PER = 1000;
const SIGMAS = 3;

/**
 * The service watched by its own base: the plan for all measures under one budget, and each measure's sum, chart and
 * gaps over the period.
 *   an agreed target per 1000 days replaces a base, and is doubted as if it rested on the fewest events a base may have
 *   a frozen base replaces both, and its sum runs on from the day it was set to watch from, over the period's start
 * Units: line-days of each measure's clock. Holds: base before the period, both with line-days, else RangeError; a base of
 * fewer events than the policy's has no alarm without a target: it would signal often or never. Source: as `monitorPlan` and `watch`.
 */
export function monitorService(
  table: AuditTable,
  measures: readonly Measure[],
  base: Period,
  now: Period,
  rules: AuditRules,
  targets: Readonly<Record<string, number>> = {},
  frozen: Readonly<Record<string, FrozenBase>> = {},
): ServiceMonitor {
  if (dayNumber(base.to) > dayNumber(now.from))
    throw new RangeError(`The base runs to ${base.to} and the period from ${now.from}; the base comes first.`);
  const { facts } = checkTable(table, rules.limits, rules.surveillance);
  const watched = measures.map((measure) => {
    const clock = measure.clock as LineClock;
    const perDay = daysIn(facts, now, clock) / (dayNumber(now.to) - dayNumber(now.from));
    const held = frozen[measure.id];
    const daysPerYear = perDay * YEAR;
    if (held) return { name: measure.id, baseEvents: held.events, baseDays: held.lineDays, daysPerYear };
    const target = targets[measure.id];
    const baseEvents = target === undefined ? eventsIn(facts, measure, base, rules) : rules.limits.baseEvents;
    return {
      name: measure.id,
      baseEvents,
      baseDays: target === undefined ? daysIn(facts, base, clock) : (PER * baseEvents) / target,
      daysPerYear,
    };
  });
  const plan = withFrozenDecisions(monitorPlan(watched, rules.limits), frozen);
  const daily = new Map<string, Float64Array>();
  const dailyOn = (clock: LineClock): Float64Array => {
    const days = daily.get(clock) ?? dailyDays(facts, now, clock);
    daily.set(clock, days);
    return days;
  };
  return {
    base,
    now,
    plan,
    charts: measures.map((measure, at) => {
      const own = plan.charts[at] as ChartPlan;
      const { baseEvents, baseDays } = watched[at] as (typeof watched)[number];
      const days = dailyOn(measure.clock as LineClock);
      const events = eventDaysIn(facts, measure, now, rules);
      const tail = provisionalFrom(table.asOf, rules.limits.provisionalDays);
      return {
        measure: measure.id,
        ...silenceOf(table, measure),
        plan: own,
        target: frozen[measure.id] ? frozen[measure.id]?.targetPerThousand : targets[measure.id],
        noAlarm:
          own.alarm !== undefined
            ? undefined
            : own.base.enough || own.expectedPerYear < rules.limits.alarmFrom
              ? "too few events expected"
              : "base too small and no target agreed",
        watch: own.alarm
          ? watch(
              facts,
              measure,
              watchedFrom(table, now, frozen[measure.id]),
              { events: baseEvents, days: baseDays },
              own.alarm.decision,
              { ...rules, provisionalFrom: tail },
            )
          : undefined,
        spans: spansOf(days, events, now, baseEvents / baseDays, own.picture === "monthly chart" ? 1 : 3, rules),
        ...gapsOf(days, events, now, baseEvents > 0 ? baseDays / baseEvents : undefined),
      };
    }),
  };
}

function numeratorOf(measure: Measure): Extract<Measure["numerator"], { readonly count: "events" }> {
  if (measure.numerator.count !== "events") throw new RangeError(`The measure ${measure.id} counts no events.`);
  return measure.numerator;
}

const daysIn = (facts: readonly LineFacts[], period: Period, clock: LineClock): number =>
  lineDays(
    facts.flatMap(({ stay }) => (stay ? [stay] : [])),
    period,
    clock,
    NOON,
  ).days;

const eventsIn = (
  facts: readonly LineFacts[],
  measure: Measure,
  period: Period,
  { surveillance }: AuditRules,
): number => countEvents(facts, numeratorOf(measure), period, surveillance).counted.length;

/** Days of the period, from 0, on which an event counts, ascending. */
function eventDaysIn(
  facts: readonly LineFacts[],
  measure: Measure,
  now: Period,
  { surveillance }: AuditRules,
): readonly number[] {
  const opens = dayNumber(now.from);
  const { counted } = countEvents(facts, numeratorOf(measure), now, surveillance);
  return counted.map(({ on }) => on - opens).sort((a, b) => a - b);
}

/** Whole months or quarters from the first of the period's month on; the last may be cut by the period's end. */
function spansOf(
  days: Float64Array,
  events: readonly number[],
  now: Period,
  rate: number,
  months: number,
  { limits }: AuditRules,
): readonly ChartMonth[] {
  const opens = dayNumber(now.from);
  const spans: ChartMonth[] = [];
  let from = now.from;
  while (dayNumber(from) < dayNumber(now.to)) {
    const next = firstOfMonth(from, months);
    const to = dayNumber(next) < dayNumber(now.to) ? next : now.to;
    const [first, last] = [dayNumber(from) - opens, dayNumber(to) - opens];
    const lineDays = days.subarray(first, last).reduce((sum, own) => sum + own, 0);
    const seen = events.filter((on) => on >= first && on < last).length;
    const rule = { sigmas: SIGMAS, bound: limits.signalChance };
    const point = lineDays > 0 && rate > 0 ? uChart([{ events: seen, exposure: lineDays }], rate, rule)[0] : undefined;
    spans.push({ from, to, events: seen, lineDays, point });
    from = to;
  }
  return spans;
}

function gapsOf(
  days: Float64Array,
  events: readonly number[],
  now: Period,
  baseMean: number | undefined,
): { readonly gaps: readonly EventGap[]; readonly sinceLast: number } {
  const opens = dayNumber(now.from);
  const gaps: EventGap[] = [];
  const lengths: number[] = [];
  let since = 0;
  let next = 0;
  for (const [at, exposure] of days.entries()) {
    since += exposure;
    for (; next < events.length && events[next] === at; next += 1) {
      lengths.push(since);
      const recent = lengths.slice(-GAPS_SUMMED);
      gaps.push({
        on: civilDateFromDayNumber(opens + at),
        lineDays: since,
        chanceOfFour:
          recent.length === GAPS_SUMMED && baseMean !== undefined ? shortExposureGaps(recent, baseMean) : undefined,
      });
      since = 0;
    }
  }
  return { gaps, sinceLast: since };
}
