import { dayNumber } from "../../core/calendar/index.ts";
import {
  MINUTES_PER_DAY,
  NOON,
  stayInMinutes,
  type Moment,
  type Stay,
  type SurveillanceRule,
} from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ROW_EVENTS } from "../line/index.ts";
import {
  DATE_ALONE,
  END_KINDS,
  isAbsent,
  momentAt,
  NO_MOMENT,
  type PackedLines,
  type PackedMoments,
} from "./packed-lines.ts";

/** No such day. */
export const NEVER = -2_147_483_648;
const [REMOVED, HANDED_ON, , UNKNOWN] = END_KINDS.map((_, at) => at) as [number, number, number, number];
const INFECTION = ROW_EVENTS.indexOf("infection");
const THROMBOSIS = ROW_EVENTS.indexOf("thrombosis");
const FRENCH_PER_MM = 3;

/** Stays as numbers: minutes of UTC (of the wall clock where both ends are dates alone), local dates, and the dates counted at noon. NaN minutes: no stay. */
export interface PackedStays {
  readonly from: Float64Array;
  readonly to: Float64Array;
  readonly datesAlone: Uint8Array;
  readonly first: Int32Array;
  readonly last: Int32Array;
  readonly noonFirst: Int32Array;
  readonly noonLast: Int32Array;
}

/** What every figure reads of the lines, whatever the period: as `lineFacts` has it, in columns. */
export interface PackedFacts {
  readonly lines: PackedLines;
  readonly placedOn: Int32Array;
  readonly endedOn: Int32Array;
  /** The local date on which a line ended or was last known to be in. */
  readonly lastOn: Int32Array;
  readonly stays: PackedStays;
  /** Lines of unknown end, ascending, and their stays stretched to the moment of the table. */
  readonly unknown: Int32Array;
  readonly longest: PackedStays;
  /** Insertion to removal in days; NaN where there is none. */
  readonly dwellDays: Float64Array;
  /** Catheter over vein; below zero and huge where absent. */
  readonly ratio: Float64Array;
  readonly eventOn: Int32Array;
  readonly eventOutside: Uint8Array;
  readonly eventEligible: Uint8Array;
}

type Limits = Pick<CountLimits, "clotDaysAfter">;

/** The facts of every line, in the numbers of `lineFacts`; a test holds the two to each other. */
export function packedFacts(lines: PackedLines, limits: Limits, rule: SurveillanceRule): PackedFacts {
  const { count, placed, knownFrom, end, endKind, events } = lines;
  const [placedOn, endedOn] = [new Int32Array(count), new Int32Array(count)];
  const lastOn = new Int32Array(count);
  const stays = emptyStays(count);
  const dwellDays = new Float64Array(count);
  const eventCount = events.kind.length;
  const eventOn = new Int32Array(eventCount);
  const [eventOutside, eventEligible] = [new Uint8Array(eventCount), new Uint8Array(eventCount)];
  const after = ROW_EVENTS.map((_, kind) =>
    kind === INFECTION ? rule.daysAfterRemoval : kind === THROMBOSIS ? limits.clotDaysAfter : 0,
  );
  let unknowns = 0;
  for (let line = 0; line < count; line += 1) {
    const kind = endKind[line] as number;
    const start = dateAt(placed, line);
    const last = dateAt(end, line);
    const stop = kind === REMOVED || kind === HANDED_ON ? last : NEVER;
    lastOn[line] = last;
    placedOn[line] = start;
    endedOn[line] = stop;
    if (kind === UNKNOWN) unknowns += 1;
    const inserted = (knownFrom.offset[line] as number) === NO_MOMENT ? placed : knownFrom;
    // never known from is before every day
    const entered = Math.max(start, dateAt(knownFrom, line));
    putStay(stays, line, inserted, line, end, line);
    dwellDays[line] =
      kind !== REMOVED ? Number.NaN : inserted === placed ? daysOf(stays, line) : wholeDays(placed, end, line);
    for (let event = events.from[line] as number; event < (events.from[line + 1] as number); event += 1) {
      const on = dateAt(events.at, event);
      eventOn[event] = on;
      const late = stop !== NEVER && on > stop + (after[events.kind[event] as number] as number);
      eventOutside[event] = Number(start === NEVER || on < entered || late);
      eventEligible[event] = Number(isEligible(start, stop, on, rule));
    }
  }
  const unknown = new Int32Array(unknowns);
  const longest = emptyStays(unknowns);
  const today = oneMoment(lines.asOf);
  for (let line = 0, at = 0; line < count; line += 1) {
    if (endKind[line] !== UNKNOWN) continue;
    unknown[at] = line;
    putStay(longest, at, (knownFrom.offset[line] as number) === NO_MOMENT ? placed : knownFrom, line, today, 0);
    at += 1;
  }
  return {
    lines,
    placedOn,
    endedOn,
    lastOn,
    stays,
    unknown,
    longest,
    dwellDays,
    ratio: ratios(lines),
    eventOn,
    eventOutside,
    eventEligible,
  };
}

const emptyStays = (count: number): PackedStays => ({
  from: new Float64Array(count).fill(Number.NaN),
  to: new Float64Array(count).fill(Number.NaN),
  datesAlone: new Uint8Array(count),
  first: new Int32Array(count),
  last: new Int32Array(count),
  noonFirst: new Int32Array(count),
  noonLast: new Int32Array(count),
});

function oneMoment(at: Moment): PackedMoments {
  return at.precision === "date"
    ? { at: Float64Array.of(dayNumber(at.date)), offset: Int16Array.of(DATE_ALONE) }
    : { at: Float64Array.of(at.utc), offset: Int16Array.of(at.offset) };
}

/** The local date of a moment as a day number. */
export function dateAt({ at, offset }: PackedMoments, place: number): number {
  const clock = offset[place] as number;
  if (clock === NO_MOMENT) return NEVER;
  return clock === DATE_ALONE ? (at[place] as number) : Math.floor(((at[place] as number) + clock) / MINUTES_PER_DAY);
}

/** Minutes of the day by the local clock; a date alone is its noon. */
function minuteAt({ at, offset }: PackedMoments, place: number): number {
  const clock = offset[place] as number;
  if (clock === DATE_ALONE) return NOON;
  const local = (at[place] as number) + clock;
  return local - Math.floor(local / MINUTES_PER_DAY) * MINUTES_PER_DAY;
}

function putStay(
  stays: PackedStays,
  place: number,
  start: PackedMoments,
  startAt: number,
  stop: PackedMoments,
  stopAt: number,
): void {
  const [startClock, stopClock] = [start.offset[startAt] as number, stop.offset[stopAt] as number];
  if (startClock === NO_MOMENT) return;
  if (startClock !== DATE_ALONE && stopClock !== DATE_ALONE) {
    const [from, to] = [start.at[startAt] as number, stop.at[stopAt] as number];
    if (to < from) return;
    stays.from[place] = from;
    stays.to[place] = Math.max(to, from + 1);
  } else {
    // a date alone is rare: the rule of core/dwell itself
    const span = stayInMinutes(stayOf(start, startAt, stop, stopAt));
    if (typeof span === "string") return;
    stays.from[place] = span.from;
    stays.to[place] = span.to;
    stays.datesAlone[place] = Number(startClock === DATE_ALONE && stopClock === DATE_ALONE);
  }
  const [first, last] = [dateAt(start, startAt), dateAt(stop, stopAt)];
  stays.first[place] = first;
  stays.last[place] = last;
  stays.noonFirst[place] = minuteAt(start, startAt) <= NOON ? first : first + 1;
  stays.noonLast[place] = minuteAt(stop, stopAt) > NOON ? last : last - 1;
}

const stayOf = (start: PackedMoments, startAt: number, stop: PackedMoments, stopAt: number): Stay => ({
  patient: "",
  inserted: momentAt(start, startAt) as Moment,
  end: { kind: "removed", at: momentAt(stop, stopAt) as Moment },
});

const daysOf = ({ from, to }: PackedStays, place: number): number =>
  ((to[place] as number) - (from[place] as number)) / MINUTES_PER_DAY;

/** Of a line that came with the patient: from its insertion elsewhere. */
function wholeDays(placed: PackedMoments, end: PackedMoments, line: number): number {
  if ((placed.offset[line] as number) === NO_MOMENT) return Number.NaN;
  const span = stayInMinutes(stayOf(placed, line, end, line));
  return typeof span === "string" ? Number.NaN : (span.to - span.from) / MINUTES_PER_DAY;
}

/** As `surveillanceEligibility` answers "eligible", on day numbers. */
function isEligible(start: number, stop: number, on: number, rule: SurveillanceRule): boolean {
  if (start === NEVER || (stop !== NEVER && stop < start)) return false;
  const onDay = on - start + 1;
  if (onDay < 1 || onDay < rule.eligibleFromLineDay) return false;
  if (stop === NEVER) return true;
  const lastDay = stop - start + 1;
  return lastDay >= rule.eligibleFromLineDay && onDay <= lastDay + rule.daysAfterRemoval;
}

/** Catheter over vein of every line, as `ratioOf` has it. */
export function ratios({ count, numbers: { sizeFr, veinDiameterMm, writtenRatio } }: PackedLines): Float64Array {
  const ratio = new Float64Array(count);
  for (let line = 0; line < count; line += 1) {
    const [size, vein] = [sizeFr[line] as number, veinDiameterMm[line] as number];
    ratio[line] =
      !isAbsent(size) && !isAbsent(vein) && vein > 0 ? size / FRENCH_PER_MM / vein : (writtenRatio[line] as number);
  }
  return ratio;
}

export const isUnknownEnd = (lines: PackedLines, line: number): boolean => lines.endKind[line] === UNKNOWN;
export const isRemoved = (lines: PackedLines, line: number): boolean => lines.endKind[line] === REMOVED;
