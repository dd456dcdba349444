import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import type { AuditTable } from "../line/index.ts";
import { DATE_ALONE, NO_MOMENT, packedOf } from "../packed/index.ts";
import type { Period } from "./figure.ts";

/**
 * A period from two dates, each midnight on the wall clock that the moment nearest to it was written by: a placing, a
 * first sight or an end. Holds: the first date before the second, else RangeError. Dates alone are held against dates and
 * need no clock.
 */
export function periodOf(table: AuditTable, from: CivilDate, to: CivilDate): Period {
  if (!(dayNumber(from) < dayNumber(to)))
    throw new RangeError(`The period runs from ${from} to ${to}; the end must come after the start.`);
  return { from, to, fromOffset: offsetNear(table, from), toOffset: offsetNear(table, to) };
}

function offsetNear(table: AuditTable, date: CivilDate): number {
  const { placed, knownFrom, end } = packedOf(table);
  const midnight = dayNumber(date) * 1440;
  let [nearest, clock] = [Infinity, 0];
  for (const { at, offset } of [placed, knownFrom, end])
    for (let line = 0; line < at.length; line += 1) {
      const own = offset[line] as number;
      const away = Math.abs((at[line] as number) + own - midnight);
      if (away >= nearest || own === NO_MOMENT || own === DATE_ALONE) continue;
      nearest = away;
      clock = own;
    }
  return clock;
}

const monthStart = (months: number): CivilDate =>
  `${String(Math.floor(months / 12)).padStart(4, "0")}-${String((months % 12) + 1).padStart(2, "0")}-01` as CivilDate;
const monthsOf = (date: CivilDate): number => Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1;

/** The first day of the month a number of months away: 0 for the month itself. */
export const firstOfMonth = (date: CivilDate, away: number): CivilDate => monthStart(monthsOf(date) + away);

/** The last twelve whole months before the moment of a table. */
export function lastTwelveMonths(table: AuditTable): Period {
  const last = localDate(table.asOf);
  return periodOf(table, firstOfMonth(last, -12), firstOfMonth(last, 0));
}

/** The last day of a half-open period, as people say it. */
export const lastDay = ({ to }: Period): CivilDate => civilDateFromDayNumber(dayNumber(to) - 1);
