import { civilDateFromDayNumber, dayNumber } from "./civil-date.ts";
import { civilDateOf, instantMs, type Instant } from "./instant.ts";

/**
 * The moment a number of minutes after another, written with the same offset from UTC, to the minute.
 *   ms = ms of the first + 60 000 x minutes
 * Holds: any sign; a change of the wall clock on the way does not change the offset shown.
 * Source: definition. Example: 2025-06-03T23:50+02:00 and 30 min is 2025-06-04T00:20+02:00.
 */
export const instantAfter = (from: Instant, minutes: number): Instant =>
  instantAtMinute(instantMs(from) / 60_000 + minutes, offsetMinutesOf(from));

/**
 * The moment a number of minutes after 1970-01-01T00:00Z, on a wall clock so many minutes ahead of UTC.
 * Holds: any minute, cut to whole ones. Source: definition. Example: 0 and 60 is 1970-01-01T01:00+01:00.
 */
export function instantAtMinute(minute: number, offsetMin: number): Instant {
  const local = Math.floor(minute + offsetMin);
  const days = Math.floor(local / 1440);
  const ofDay = local - days * 1440;
  return `${civilDateFromDayNumber(days)}T${clock(ofDay)}${offsetWords(offsetMin)}` as Instant;
}

/** Minutes that the wall clock which showed a moment was ahead of UTC. */
export const offsetMinutesOf = (at: Instant): number =>
  dayNumber(civilDateOf(at)) * 1440 +
  Number(at.slice(11, 13)) * 60 +
  Number(at.slice(14, 16)) -
  Math.floor(instantMs(at) / 60_000);

const two = (part: number): string => (part < 10 ? `0${part}` : String(part));
const clock = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
const offsetWords = (minutes: number): string =>
  minutes === 0 ? "Z" : `${minutes < 0 ? "-" : "+"}${clock(Math.abs(minutes))}`;
