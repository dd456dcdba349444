import { civilDateFromDayNumber, dayNumber } from "../../core/calendar/index.ts";
import {
  endOf,
  lineDays,
  stayInMinutes,
  MINUTES_PER_DAY,
  localDate,
  NOON,
  type LineClock,
} from "../../core/dwell/index.ts";
import type { Period } from "../figure/index.ts";
import type { LineFacts } from "../line/index.ts";

/**
 * Line-days of each local date of a period: what a chart needs that moves day by day.
 *   the whole days of a stay add one each; its first and last are counted by `lineDays`
 * Units: days of the clock. Holds: sums to `lineDays` over the period to rounding. Source: definition.
 */
export function dailyDays(lines: readonly LineFacts[], period: Period, clock: LineClock): Float64Array {
  const [opens, closes] = [dayNumber(period.from), dayNumber(period.to)];
  const days = new Float64Array(closes - opens);
  const step = new Float64Array(closes - opens + 1);
  const addTo = (on: number, stay: NonNullable<LineFacts["stay"]>): void => {
    if (on < opens || on >= closes) return;
    const window = {
      from: civilDateFromDayNumber(on),
      to: civilDateFromDayNumber(on + 1),
      fromOffset: period.fromOffset,
      toOffset: period.fromOffset,
    };
    days[on - opens] = (days[on - opens] as number) + lineDays([stay], window, clock, NOON).days;
  };
  if (clock === "exact line-days") return exactDays(lines, opens, days, period.fromOffset);
  for (const { stay } of lines) {
    if (!stay) continue;
    const first = dayNumber(localDate(stay.inserted));
    const last = dayNumber(localDate(endOf(stay)));
    if (last + 1 < opens || first - 1 >= closes) continue;
    // the offsets of the stay may put its edges a date aside of the period's clock: three dates at each end by counting
    const [from, to] = [first + 2, last - 2];
    for (let on = first - 1; on <= Math.min(last + 1, first + 1); on += 1) addTo(on, stay);
    for (let on = Math.max(first + 2, last - 1); on <= last + 1; on += 1) addTo(on, stay);
    if (to < from || to < opens || from >= closes) continue;
    const [start, stop] = [Math.max(0, from - opens), Math.min(closes - opens, to + 1 - opens)];
    step[start] = (step[start] as number) + 1;
    step[stop] = (step[stop] as number) - 1;
  }
  let present = 0;
  for (let at = 0; at < days.length; at += 1) {
    present += step[at] as number;
    days[at] = (days[at] as number) + present;
  }
  return days;
}

/** The minutes of each stay laid on the days they fall on: whole days by a step up and a step down, the ends by their share. */
function exactDays(lines: readonly LineFacts[], opens: number, days: Float64Array, offset: number): Float64Array {
  const step = new Float64Array(days.length + 1);
  const closing = days.length * MINUTES_PER_DAY;
  for (const { stay } of lines) {
    const span = stay && stayInMinutes(stay);
    if (span === undefined || typeof span === "string") continue;
    const from = Math.max(0, span.from + offset - opens * MINUTES_PER_DAY);
    const to = Math.min(closing, span.to + offset - opens * MINUTES_PER_DAY);
    if (to <= from) continue;
    const [first, last] = [Math.floor(from / MINUTES_PER_DAY), Math.floor(to / MINUTES_PER_DAY)];
    // each day from the first up to the last in full, less what is missing at the front, plus what the last holds
    step[first] = (step[first] as number) + 1;
    step[last] = (step[last] as number) - 1;
    days[first] = (days[first] as number) - (from / MINUTES_PER_DAY - first);
    if (last < days.length) days[last] = (days[last] as number) + (to / MINUTES_PER_DAY - last);
  }
  let present = 0;
  for (let at = 0; at < days.length; at += 1) {
    present += step[at] as number;
    days[at] = (days[at] as number) + present;
  }
  return days;
}
