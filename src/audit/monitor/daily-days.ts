import { civilDateFromDayNumber, dayNumber } from "../../core/calendar/index.ts";
import { endOf, lineDays, localDate, NOON, type LineClock } from "../../core/dwell/index.ts";
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
