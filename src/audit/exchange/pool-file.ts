import { dayNumber } from "../../core/calendar/index.ts";
import { lineDays, NOON, type LineClock } from "../../core/dwell/index.ts";
import {
  countEvents,
  PRIVATE_STRATA,
  stratumOf,
  type AuditRules,
  type Period,
  type StratumName,
} from "../figure/index.ts";
import { timeToEvent } from "../follow/index.ts";
import type { LineFacts } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { withholdStrata, type CountedStratum } from "./withhold.ts";

/** A count as it leaves: null is one that is small, or would tell one that is. */
export type PooledCount = number | null;

export const POOL_FORMAT = "veinwright pool 1";
/** Whole numbers on every row, so that sums over services are exact. */
export const POOL_CLOCK: LineClock = "calendar line-days, both ends";

/**
 * All that a service gives away to be counted with others: sums of events and days, and who was at risk when, in days
 * since insertion. No line, no date, no person.
 */
export interface PoolFile {
  readonly format: typeof POOL_FORMAT;
  /** A name the services agreed on; it need not say which hospital. */
  readonly service: string;
  readonly measure: string;
  readonly clock: string;
  readonly splitBy: string;
  readonly strataBy: string;
  /** Length of the period counted, days; never its dates. */
  readonly periodDays: number;
  /** Days of one interval of time since insertion; ends are put at the end of their interval. */
  readonly widthDays: number;
  readonly smallestShown: number;
  readonly groups: readonly string[];
  readonly strata: readonly PoolStratum[];
}

export interface PoolStratum {
  readonly stratum: string;
  /** In the order of `groups`. */
  readonly events: readonly PooledCount[];
  readonly lineDays: readonly number[];
  readonly lines: readonly PooledCount[];
  /** Row k: at risk over the interval that ends at (k + 1) widths, and events in it, in the order of `groups`. */
  readonly atRisk: readonly (readonly PooledCount[])[];
  readonly ends: readonly (readonly PooledCount[])[];
}

export interface PoolQuestion {
  readonly service: string;
  readonly measure: Measure;
  readonly splitBy: StratumName;
  readonly strataBy: StratumName | undefined;
  readonly widthDays: number;
  /** Whole intervals counted; what lies beyond is censored at their end. */
  readonly horizonDays: number;
}

/**
 * The pool file of one service: rates in a period, and risk sets of the lines placed in it.
 *   interval k holds times in ((k - 1) w, k w]; at risk in it: entry < k w <= exit on the grouped times
 * Small cells are withheld by `withholdStrata`, as if the sums an audit prints were known.
 * Units: days of the clock in the file. Holds: an event measure; a width of a day or more, no longer than the horizon; no split by a person;
 * else RangeError. Source: sufficient counts of the log-rank test, Mantel 1966 (from memory).
 */
export function poolFile(
  facts: readonly LineFacts[],
  period: Period,
  asked: PoolQuestion,
  { limits, surveillance }: AuditRules,
): PoolFile {
  const { service, measure, splitBy, strataBy, widthDays, horizonDays } = asked;
  const { numerator } = measure;
  if (numerator.count !== "events") throw new RangeError(`The measure ${measure.id} counts no events.`);
  if (!(widthDays >= 1 && horizonDays >= widthDays))
    throw new RangeError(
      `A width of ${widthDays} and a horizon of ${horizonDays} days leave no interval of a day or more.`,
    );
  for (const by of [splitBy, strataBy])
    if (by && PRIVATE_STRATA.includes(by)) throw new RangeError(`A pool file is never split by ${by}.`);
  const nameOf = (line: LineFacts, by: StratumName | undefined) => (by ? stratumOf(line.row, by, limits) : "all");
  const order = (by: StratumName | undefined) =>
    [...new Set(facts.map((line) => nameOf(line, by)))].sort(new Intl.Collator("en", { numeric: true }).compare);
  const groups = order(splitBy);
  const placed = new Set(placedIn(facts, period));
  // a person's lines may lie in two groups: repeats are merged before the split
  const { counted } = countEvents(facts, numerator, period, surveillance);
  const strata = order(strataBy).map((stratum): CountedStratum => {
    const inStratum = facts.filter((line) => nameOf(line, strataBy) === stratum);
    const byGroup = groups.map((group) => inStratum.filter((line) => nameOf(line, splitBy) === group));
    const events = groups.map(
      (group) =>
        counted.filter(({ line }) => nameOf(line, strataBy) === stratum && nameOf(line, splitBy) === group).length,
    );
    const risk = byGroup.map((lines) =>
      groupedRisk(
        lines.filter((line) => placed.has(line)),
        measure,
        widthDays,
        Math.floor(horizonDays / widthDays),
      ),
    );
    const intervals = Math.max(0, ...risk.map(({ atRisk }) => atRisk.length));
    const rows = (part: "atRisk" | "ends") =>
      Array.from({ length: intervals }, (_, k) => risk.map((one) => one[part][k] ?? 0));
    return {
      stratum,
      events,
      lineDays: byGroup.map((lines) => daysOf(lines, period)),
      lines: byGroup.map((lines) => lines.filter((line) => placed.has(line)).length),
      atRisk: rows("atRisk"),
      ends: rows("ends"),
    };
  });
  return {
    format: POOL_FORMAT,
    service,
    measure: measure.id,
    clock: POOL_CLOCK,
    splitBy,
    strataBy: strataBy ?? "all",
    periodDays: periodLength(period),
    widthDays,
    smallestShown: limits.smallestShown,
    groups,
    strata: withholdStrata(strata, limits.smallestShown),
  };
}

const periodLength = (period: Period): number =>
  lineDays(
    [
      {
        patient: "",
        inserted: { precision: "date", date: period.from },
        end: { kind: "removed", at: { precision: "date", date: period.to } },
      },
    ],
    period,
    POOL_CLOCK,
    NOON,
  ).days;

const placedIn = (facts: readonly LineFacts[], { from, to }: Period): readonly LineFacts[] => {
  const [opens, closes] = [dayNumber(from), dayNumber(to)];
  return facts.filter(({ placedOn }) => placedOn !== undefined && placedOn >= opens && placedOn < closes);
};

const daysOf = (lines: readonly LineFacts[], period: Period): number =>
  lineDays(
    lines.flatMap(({ stay }) => (stay ? [stay] : [])),
    period,
    POOL_CLOCK,
    NOON,
  ).days;

interface GroupedRisk {
  readonly atRisk: readonly number[];
  readonly ends: readonly number[];
}

/** A time a rounding above the end of its interval still lies in it. */
const TINY = 1e-9;

/** Who was at risk and who had the event, interval by interval. */
function groupedRisk(lines: readonly LineFacts[], measure: Measure, width: number, intervals: number): GroupedRisk {
  const { follow } = timeToEvent(lines, measure);
  const place = (days: number) => Math.max(1, Math.ceil(days / width - TINY));
  const last = Math.min(
    intervals,
    follow.exit.reduce((most, exit) => Math.max(most, place(exit)), 0),
  );
  const atRisk = Array.from({ length: last }, () => 0);
  const ends = Array.from({ length: last }, () => 0);
  for (const [i, exit] of follow.exit.entries()) {
    const out = place(exit);
    const entered = Math.floor((follow.entry[i] as number) / width + TINY);
    for (let k = entered; k < Math.min(out, last); k += 1) atRisk[k] = (atRisk[k] as number) + 1;
    if (follow.end[i] === 1 && out <= last) ends[out - 1] = (ends[out - 1] as number) + 1;
  }
  return { atRisk, ends };
}
