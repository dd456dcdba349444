import { civilDateFromDayNumber } from "./civil-date.ts";
import { instantMs, type Instant } from "./instant.ts";

/**
 * The moment a number of minutes after another, written with the same offset from UTC, to the minute.
 *   ms = ms of the first + 60 000 x minutes
 * Holds: any sign; a change of the wall clock on the way does not change the offset shown.
 * Source: definition. Example: 2025-06-03T23:50+02:00 and 30 min is 2025-06-04T00:20+02:00.
 */
export function instantAfter(from: Instant, minutes: number): Instant {
  const zone = /(?:Z|[+-]\d{2}:\d{2})$/.exec(from)?.[0] ?? "Z";
  const sign = zone.startsWith("-") ? -1 : 1;
  const offset = zone === "Z" ? 0 : sign * (Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4)));
  const local = Math.floor(instantMs(from) / 60_000 + minutes + offset);
  const days = Math.floor(local / 1440);
  const two = (part: number) => String(part).padStart(2, "0");
  const minute = local - days * 1440;
  return `${civilDateFromDayNumber(days)}T${two(Math.floor(minute / 60))}:${two(minute % 60)}${zone}` as Instant;
}
