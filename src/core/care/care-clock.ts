import { civilDateOf, dayNumber, instantMs, offsetMinutesOf, type Instant } from "../calendar/index.ts";
import { isKnown, isMissing } from "../missing/index.ts";
import type { CareLimits } from "./care-limits.ts";
import type { Dressing, LineCare, SetKind, Setting } from "./line-care.ts";

/**
 * The last care of a line as plain numbers, for lists of many thousand lines: days since 1970-01-01 on the wall where it
 * was done, minutes since 1970-01-01T00:00Z. NaN is a care that nobody wrote down; Infinity is "nothing calls for it".
 */
export interface CareClock {
  readonly setting: Setting;
  /** Minutes that the wall clock of the place is ahead of UTC. */
  readonly offsetMin: number;
  readonly dressing: Dressing;
  readonly dressingDay: number;
  /** Day a wet, loose, soiled or lifting dressing was seen. */
  readonly dressingSpoiledDay: number;
  readonly connectorMin: number;
  /** When blood, debris, a removal or a coming culture called for a new connector. */
  readonly connectorSpoiledMin: number;
  readonly flushDay: number;
  readonly sets: readonly { readonly kind: SetKind; readonly startedMin: number }[];
  readonly reviewDay: number;
  /** Day of the next visit. */
  readonly nextDay: number;
}

export const CARE_ITEMS = ["dressing", "connector", "flush", "administration set", "need review"] as const;
export type CareItem = (typeof CARE_ITEMS)[number];

const MINUTES_PER_DAY = 1440;

/** The earliest care of a line; `dueMin` is -Infinity for one that nobody wrote down, which is asked about first. */
export interface NextDue {
  readonly item: CareItem;
  /** Minutes since 1970-01-01T00:00Z; a care due on a day counts from that day's first minute on the wall. */
  readonly dueMin: number;
}

/**
 * The earliest care due on a line, as numbers only.
 *   least of: dressing day + its interval, connector + its hours, flush day + interval, each set + its hours, review
 * Units: minutes since 1970-01-01T00:00Z. Holds: any clock; a missing care comes out as -Infinity. Source: policy rows.
 * Example: a transparent dressing of Tue 5 Aug 2025 alone, 7 days: Tue 12 Aug 00:00 on that wall.
 */
export function nextDue(clock: CareClock, limits: CareLimits): NextDue {
  const midnight = -clock.offsetMin;
  let item: CareItem = "dressing";
  let dueMin = known(dressingDueDay(clock, limits) * MINUTES_PER_DAY + midnight);
  const connector = known(connectorDueMin(clock, limits));
  if (connector < dueMin) {
    item = "connector";
    dueMin = connector;
  }
  const flush = known((clock.flushDay + limits.flushIdleDays) * MINUTES_PER_DAY + midnight);
  if (flush < dueMin) {
    item = "flush";
    dueMin = flush;
  }
  for (const { kind, startedMin } of clock.sets) {
    const set = known(setDueMin(kind, startedMin, limits));
    if (set < dueMin) {
      item = "administration set";
      dueMin = set;
    }
  }
  const review = known(reviewDueDay(clock, limits) * MINUTES_PER_DAY + midnight);
  return review < dueMin ? { item: "need review", dueMin: review } : { item, dueMin };
}

const known = (minutes: number): number => (minutes === minutes ? minutes : -Infinity);

/** Day a dressing is due: its interval from the day it was done, or the day it was seen spoiled. */
export function dressingDueDay(clock: CareClock, limits: CareLimits): number {
  const days = clock.dressing === "gauze" ? limits.dressingGauzeDays : limits.dressingTransparentDays;
  return Math.min(clock.dressingDay + days, clock.dressingSpoiledDay);
}

export const connectorDueMin = (clock: CareClock, limits: CareLimits): number =>
  Math.min(clock.connectorMin + limits.connectorDueHours * 60, clock.connectorSpoiledMin);

export const setDueMin = (kind: SetKind, startedMin: number, limits: CareLimits): number =>
  startedMin + limits.setDueHours[kind] * 60;

/** Day the need is asked again: daily on a ward; at home the next visit, or its longest interval. */
export function reviewDueDay(clock: CareClock, limits: CareLimits): number {
  if (clock.setting === "ward") return clock.reviewDay + limits.reviewWardDays;
  const latest = clock.reviewDay + limits.reviewHomeDays;
  return clock.nextDay > clock.reviewDay && clock.nextDay < latest ? clock.nextDay : latest;
}

const minuteOf = (at: Instant): number => Math.floor(instantMs(at) / 60_000);
const dayOf = (at: Instant): number => dayNumber(civilDateOf(at));

/** The numbers of a line's last care; `now` gives the offset of the wall clock and the day of an undated state. */
export function careClock(line: LineCare, now: Instant): CareClock {
  const { dressing, connector } = line;
  const spoiled = isKnown(dressing) && isKnown(dressing.state) && dressing.state !== "sound";
  const called = isKnown(connector) && isKnown(connector.reason) && connector.reason !== "none";
  return {
    setting: line.setting,
    offsetMin: offsetMinutesOf(now),
    dressing: isMissing(dressing) ? "transparent" : dressing.type,
    dressingDay: isMissing(dressing) ? Number.NaN : dayOf(dressing.doneAt),
    dressingSpoiledDay: spoiled ? dayOf(dressing.stateSeenAt ?? now) : Infinity,
    connectorMin: isMissing(connector) ? Number.NaN : minuteOf(connector.changedAt),
    connectorSpoiledMin: called ? minuteOf(connector.reasonSeenAt ?? now) : Infinity,
    flushDay: isMissing(line.flushedAt) ? Number.NaN : dayOf(line.flushedAt),
    sets: line.sets.map(({ kind, startedAt }) => ({ kind, startedMin: minuteOf(startedAt) })),
    reviewDay: isMissing(line.reviewedAt) ? Number.NaN : dayOf(line.reviewedAt),
    nextDay: isMissing(line.nextOn) ? Number.NaN : dayNumber(line.nextOn),
  };
}
