import { civilDateFromDayNumber, type CivilDate } from "./civil-date.ts";
import { instantMs, type Instant } from "./instant.ts";

/** What a wall clock in a zone can mean: one moment, none (skipped in spring), or two (shown twice in autumn). */
export type WallClock =
  | { readonly kind: "one"; readonly instant: Instant }
  | { readonly kind: "skipped" }
  | { readonly kind: "twice"; readonly first: Instant; readonly second: Instant };

/**
 * The moment a wall clock showed "hh:mm" on a day in a zone of the IANA database ("Europe/London").
 * Tries every offset the zone had within a day of it and keeps those that read back the same; so a time the clock
 * skipped has none and a time it showed twice has two: a person must say which.
 * Example: 2025-03-30 01:30 in London was skipped; 2025-10-26 01:30 came twice.
 */
export function wallClock(date: CivilDate, clock: string, zone: string): WallClock {
  const asIfUtc = instantMs(`${date}T${clock}Z` as Instant);
  const offsets = new Set([-86_400_000, 0, 86_400_000].map((away) => offsetMinutesAt(asIfUtc + away, zone)));
  const found = [...offsets]
    .filter((offset) => offsetMinutesAt(asIfUtc - offset * 60_000, zone) === offset)
    .sort((a, b) => b - a)
    .map((offset) => `${date}T${clock}${offsetText(offset)}` as Instant);
  const [first, second] = found;
  if (first === undefined) return { kind: "skipped" };
  return second === undefined ? { kind: "one", instant: first } : { kind: "twice", first, second };
}

/** A moment written on the wall clock of a zone, to the second. */
export function instantInZone(ms: number, zone: string): Instant {
  const offset = offsetMinutesAt(ms, zone);
  const shifted = Math.floor((ms + offset * 60_000) / 1000);
  const days = Math.floor(shifted / 86_400);
  const seconds = shifted - days * 86_400;
  const two = (part: number) => String(part).padStart(2, "0");
  const date = civilDateFromDayNumber(days);
  const clock = `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
  return `${date}T${clock}${offsetText(offset)}` as Instant;
}

const formats = new Map<string, Intl.DateTimeFormat>();

function offsetMinutesAt(ms: number, zone: string): number {
  const format =
    formats.get(zone) ??
    new Intl.DateTimeFormat("en-GB", {
      timeZone: zone,
      hourCycle: "h23",
      year: "numeric",
      month: "2-digit",
      day: "2-digit",
      hour: "2-digit",
      minute: "2-digit",
    });
  formats.set(zone, format);
  const part = Object.fromEntries(format.formatToParts(ms).map(({ type, value }) => [type, value]));
  const date = `${String(part["year"]).padStart(4, "0")}-${part["month"]}-${part["day"]}`;
  const shown = instantMs(`${date}T${part["hour"]}:${part["minute"]}Z` as Instant);
  return Math.round((shown - Math.floor(ms / 60_000) * 60_000) / 60_000);
}

function offsetText(minutes: number): string {
  const size = Math.abs(minutes);
  const two = (part: number) => String(part).padStart(2, "0");
  return `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
