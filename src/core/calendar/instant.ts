import { dayNumber, parseCivilDate, type CivilDate } from "./civil-date.ts";

/**
 * A moment as its ISO 8601 text with the offset of the wall clock that showed it ("2026-11-25T09:05+01:00").
 * The text keeps three things apart that a number would melt: the moment, the day it was where it happened, and how
 * finely it was known. Days are read from the text itself, so no time zone of a later reader can move them.
 */
declare const moment: unique symbol;
export type Instant = string & { readonly [moment]: true };

const PATTERN = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,3}))?)?(Z|[+-]\d{2}:\d{2})$/;

/**
 * Reads "YYYY-MM-DDThh:mm[:ss[.fff]]" with "Z" or an offset; undefined for anything else, a day that does not exist, an
 * hour past 23 or an offset past 14 hours. An instant without an offset names no moment and is refused.
 * Source: RFC 3339 section 5.6, with seconds left out where they were not known.
 */
export function parseInstant(text: string): Instant | undefined {
  const parts = PATTERN.exec(text);
  if (!parts || !parseCivilDate(parts[1] as string)) return undefined;
  if (Number(parts[2]) > 23 || Number(parts[3]) > 59 || Number(parts[4] ?? 0) > 59) return undefined;
  const zone = parts[6] as string;
  if (zone !== "Z" && (Number(zone.slice(1, 3)) > 14 || Number(zone.slice(4)) > 59)) return undefined;
  return text as Instant;
}

/** Milliseconds since 1970-01-01T00:00Z. Example: "1970-01-01T01:00+01:00" is 0. */
export function instantMs(instant: Instant): number {
  const parts = PATTERN.exec(instant) as RegExpExecArray;
  const [, date, hour, minute, second = "0", fraction = "0", zone = "Z"] = parts;
  const sign = zone.startsWith("-") ? -1 : 1;
  const offsetMinutes = zone === "Z" ? 0 : sign * (Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4)));
  const minutes = dayNumber(date as CivilDate) * 1440 + Number(hour) * 60 + Number(minute) - offsetMinutes;
  return (minutes * 60 + Number(second)) * 1000 + Number(fraction.padEnd(3, "0"));
}

/** The day on the wall where it happened. */
export const civilDateOf = (instant: Instant): CivilDate => instant.slice(0, 10) as CivilDate;

/** The time on the wall where it happened, hh:mm. */
export const clockOf = (instant: Instant): string => instant.slice(11, 16);

/** Minutes from the first to the second, negative when it lies before; clock changes between them do not count. */
export const minutesBetween = (from: Instant, to: Instant): number => (instantMs(to) - instantMs(from)) / 60_000;
