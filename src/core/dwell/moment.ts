import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../calendar/index.ts";
import { minute, type Minute } from "../quantity/index.ts";

/**
 * A point in time as it was written down: to the minute (with the local clock's offset from UTC, so that elapsed time
 * survives a change of clocks), or a date alone.
 */
export type Moment =
  | { readonly precision: "minute"; readonly utc: Minute; readonly offset: Minute }
  | { readonly precision: "date"; readonly date: CivilDate };

export const MINUTES_PER_DAY = 1440;
export const NOON = 720;

/**
 * A moment from what a wall clock and calendar show.
 *   utc = 1440 x day number + minute of the day - offset
 * Units: minutes since 1970-01-01 00:00 UTC. Holds: minute of the day from 0 to 1439, else RangeError.
 * Source: definition of the offset. Example: 2025-03-31, 720, offset 120 is 10:00 UTC.
 */
export function momentOf(date: CivilDate, minuteOfDay: number, offset: number): Moment {
  if (!(minuteOfDay >= 0 && minuteOfDay < MINUTES_PER_DAY))
    throw new RangeError(`The minute of the day is ${minuteOfDay}; it must be from 0 to 1439.`);
  return {
    precision: "minute",
    utc: minute(dayNumber(date) * MINUTES_PER_DAY + minuteOfDay - offset),
    offset: minute(offset),
  };
}

/** The local civil date of a moment. */
export const localDate = (at: Moment): CivilDate =>
  at.precision === "date" ? at.date : civilDateFromDayNumber(Math.floor((at.utc + at.offset) / MINUTES_PER_DAY));

/** The same as a day number, days since 1970-01-01: no text is made, for a register asks millions of times. */
export const localDay = (at: Moment): number =>
  at.precision === "date" ? dayNumber(at.date) : Math.floor((at.utc + at.offset) / MINUTES_PER_DAY);

/** The day a moment falls on by the wall clock that another was written by; a date alone stands by itself. */
export const dayOnClockOf = (at: Moment, other: Moment): number =>
  at.precision === "minute" && other.precision === "minute"
    ? Math.floor((at.utc + other.offset) / MINUTES_PER_DAY)
    : localDay(at);

/** The local minute of the day; a date alone counts as noon. */
export function localMinute(at: Moment): number {
  if (at.precision === "date") return NOON;
  const local = at.utc + at.offset;
  return local - Math.floor(local / MINUTES_PER_DAY) * MINUTES_PER_DAY;
}
