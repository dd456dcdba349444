import { dayNumber } from "../calendar/index.ts";
import { localDay, MINUTES_PER_DAY, NOON, type Moment } from "./moment.ts";

/**
 * One line in one patient, from the end of its insertion. A line without a removal is known to have been in place up to a
 * last moment and no further: a lost line stops there, not at the cut-off, or it would gain days nobody saw.
 */
export interface Stay {
  readonly patient: string;
  readonly inserted: Moment;
  readonly end:
    | { readonly kind: "removed"; readonly at: Moment }
    | { readonly kind: "in place"; readonly lastKnown: Moment };
}

export const endOf = (stay: Stay): Moment => (stay.end.kind === "removed" ? stay.end.at : stay.end.lastKnown);

/** A span in minutes of UTC; `to` is never before `from` plus one minute. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Zero dwell would drop out of every model and has no logarithm, so it counts as one minute. */
const SHORTEST = 1;

/**
 * When a line was in, in minutes, whatever precision its ends have.
 *   two dates: noon to noon, one date twice: half a day about noon
 *   one date and one time: noon, or the middle of what the day leaves when noon would break the order
 * Units: minutes of UTC; of two dates, minutes of the wall clock (`hasDatesAlone`). The offset of one date is the other end's.
 * Holds: removal not before insertion, else "ends out of order". With two dates the error has mean zero and standard
 * deviation sqrt(1/6) day per line. Source: common practice, no source. Example: two dates 7 days apart: 10,080 minutes.
 */
export function stayInMinutes(stay: Stay): Span | "ends out of order" {
  const first = stay.inserted;
  const last = endOf(stay);
  if (first.precision === "minute" && last.precision === "minute") return ordered(first.utc, last.utc);
  if (first.precision === "date" && last.precision === "date") {
    const [from, to] = [dayNumber(first.date), dayNumber(last.date)].map((days) => days * MINUTES_PER_DAY + NOON) as [
      number,
      number,
    ];
    const half = from === to ? MINUTES_PER_DAY / 4 : 0;
    return ordered(from - half, to + half);
  }
  if (first.precision === "date" && last.precision === "minute") {
    const midnight = dayNumber(first.date) * MINUTES_PER_DAY - last.offset;
    const noon = midnight + NOON;
    return ordered(noon <= last.utc ? noon : (midnight + last.utc) / 2, last.utc);
  }
  if (first.precision === "minute" && last.precision === "date") {
    const midnight = (dayNumber(last.date) + 1) * MINUTES_PER_DAY - first.offset;
    const noon = midnight - NOON;
    return ordered(first.utc, noon >= first.utc ? noon : (midnight + first.utc) / 2);
  }
  return "ends out of order";
}

const ordered = (from: number, to: number): Span | "ends out of order" =>
  to < from ? "ends out of order" : { from, to: Math.max(to, from + SHORTEST) };

/** True when both ends carry a clock time: the share of the others is reported beside every exact figure. */
export const isTimed = (stay: Stay): boolean =>
  stay.inserted.precision === "minute" && endOf(stay).precision === "minute";

/** True when both ends are dates alone: such a stay stands on no clock, and is held against wall-clock midnights. */
export const hasDatesAlone = (stay: Stay): boolean =>
  stay.inserted.precision === "date" && endOf(stay).precision === "date";

/** First and last local date of a stay, as day numbers. */
export function stayDates(stay: Stay): { readonly first: number; readonly last: number } {
  return { first: localDay(stay.inserted), last: localDay(endOf(stay)) };
}
