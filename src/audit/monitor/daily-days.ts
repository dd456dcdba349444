import { dayNumber } from "../../core/calendar/index.ts";
import {
  endOf,
  hasDatesAlone,
  localMinute,
  stayDates,
  stayInMinutes,
  MINUTES_PER_DAY,
  NOON,
  type LineClock,
  type Stay,
} from "../../core/dwell/index.ts";
import type { Period } from "../figure/index.ts";
import type { LineFacts } from "../line/index.ts";
import { midnightsOf } from "./midnights.ts";

/**
 * Line-days of each local date of a period: what a chart needs that moves day by day.
 *   the days of a stay add one each: a step up on its first, a step down after its last
 * Units: days of the clock. Holds: sums to `lineDays` over the period to rounding. Nobody wrote on which day the clock
 * changed: the last day is the one that is an hour shorter or longer for it. Source: definition.
 */
export function dailyDays(lines: readonly LineFacts[], period: Period, clock: LineClock): Float64Array {
  const [opens, closes] = [dayNumber(period.from), dayNumber(period.to)];
  const days = new Float64Array(closes - opens);
  if (clock === "exact line-days") return exactDays(lines, opens, days, period);
  const step = new Float64Array(closes - opens + 1);
  for (const { stay } of lines) {
    if (!stay || stayInMinutes(stay) === "ends out of order") continue;
    const { first, last } = daysCounted(stay, clock);
    const [start, stop] = [Math.max(first, opens), Math.min(last + 1, closes)];
    if (stop <= start) continue;
    step[start - opens] = (step[start - opens] as number) + 1;
    step[stop - opens] = (step[stop - opens] as number) - 1;
  }
  let present = 0;
  for (let at = 0; at < days.length; at += 1) {
    present += step[at] as number;
    days[at] = present;
  }
  return days;
}

/** The first and the last date on which a stay counts, each as one day. */
function daysCounted(
  stay: Stay,
  clock: Exclude<LineClock, "exact line-days">,
): { readonly first: number; readonly last: number } {
  const { first, last } = stayDates(stay);
  switch (clock) {
    case "calendar line-days, both ends":
      return { first, last };
    case "line-days by date difference":
      // the midnight that ends a date is that date's day
      return { first, last: last - 1 };
    case "line-days at census":
      return {
        first: localMinute(stay.inserted) <= NOON ? first : first + 1,
        last: localMinute(endOf(stay)) > NOON ? last : last - 1,
      };
    default:
      return clock satisfies never;
  }
}

/**
 * The minutes of each stay laid on the days they fall on. A stay of dates alone stands on no clock and is cut at the dates;
 * any other at the midnights of the clock that was written nearest to each.
 */
function exactDays(lines: readonly LineFacts[], opens: number, days: Float64Array, period: Period): Float64Array {
  const stays = lines.flatMap(({ stay }) => (stay ? [stay] : []));
  const dates = Float64Array.from({ length: days.length + 1 }, (_, at) => (opens + at) * MINUTES_PER_DAY);
  layDown(stays.filter(hasDatesAlone), dates, days);
  layDown(
    stays.filter((stay) => !hasDatesAlone(stay)),
    midnightsOf(lines, period),
    days,
  );
  return days;
}

/** Whole days by a step up and a step down, the ends by their share. */
function layDown(stays: readonly Stay[], midnights: Float64Array, days: Float64Array): void {
  const step = new Float64Array(days.length + 1);
  const [start, closing] = [midnights[0] as number, midnights[days.length] as number];
  const since = (minute: number, at: number) => (minute - (midnights[at] as number)) / MINUTES_PER_DAY;
  const dayAt = (minute: number): number => {
    let at = Math.max(0, Math.min(days.length, Math.floor((minute - start) / MINUTES_PER_DAY)));
    while ((midnights[at] as number) > minute) at -= 1;
    while (at < days.length && (midnights[at + 1] as number) <= minute) at += 1;
    return at;
  };
  for (const stay of stays) {
    const span = stayInMinutes(stay);
    if (typeof span === "string") continue;
    const from = Math.max(start, span.from);
    const to = Math.min(closing, span.to);
    if (to <= from) continue;
    const [first, last] = [dayAt(from), dayAt(to)];
    // each day from the first up to the last in full, less what is missing at the front, plus what the last holds
    step[first] = (step[first] as number) + 1;
    step[last] = (step[last] as number) - 1;
    days[first] = (days[first] as number) - since(from, first);
    if (last < days.length) days[last] = (days[last] as number) + since(to, last);
  }
  let present = 0;
  for (let at = 0; at < days.length; at += 1) {
    present += step[at] as number;
    // a day on which the clock changes is an hour shorter or longer
    days[at] = (days[at] as number) + present * since(midnights[at + 1] as number, at);
  }
}
