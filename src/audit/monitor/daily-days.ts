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

/** The minutes of each stay laid on the days they fall on: whole days by a step up and a step down, the ends by their share. */
function exactDays(
  lines: readonly LineFacts[],
  opens: number,
  days: Float64Array,
  { fromOffset, toOffset }: Period,
): Float64Array {
  const step = new Float64Array(days.length + 1);
  const whole = days.length * MINUTES_PER_DAY;
  const dayOf = (minute: number): number => Math.min(days.length - 1, Math.floor(minute / MINUTES_PER_DAY));
  for (const { stay } of lines) {
    const span = stay && stayInMinutes(stay);
    if (!stay || span === undefined || typeof span === "string") continue;
    const onWall = hasDatesAlone(stay);
    const midnight = opens * MINUTES_PER_DAY - (onWall ? 0 : fromOffset);
    const from = Math.max(0, span.from - midnight);
    const to = Math.min(whole + (onWall ? 0 : fromOffset - toOffset), span.to - midnight);
    if (to <= from) continue;
    const [first, last] = [dayOf(from), dayOf(to)];
    // each day from the first up to the last in full, less what is missing at the front, plus what the last holds
    step[first] = (step[first] as number) + 1;
    step[last] = (step[last] as number) - 1;
    days[first] = (days[first] as number) - (from / MINUTES_PER_DAY - first);
    days[last] = (days[last] as number) + (to / MINUTES_PER_DAY - last);
  }
  let present = 0;
  for (let at = 0; at < days.length; at += 1) {
    present += step[at] as number;
    days[at] = (days[at] as number) + present;
  }
  return days;
}
