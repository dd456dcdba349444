import {
  addDays,
  civilDateOf,
  dayNumber,
  offsetMinutesOf,
  weekday,
  type CivilDate,
  type Instant,
} from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { careClock, nextDue } from "./care-clock.ts";
import { careDue, type DueItem } from "./care-due.ts";
import type { CareLimits } from "./care-limits.ts";
import type { LineCare } from "./line-care.ts";

/** A run of free days longer than this is a mistake in the list of holidays. */
const LONGEST_RUN = 31;
const MINUTES_PER_DAY = 1440;

/**
 * The days a list made today covers: from tomorrow on, as long as each is a covered weekday or a holiday.
 * Holds: any day; none before an ordinary working day. Source: policy row care.covered-weekdays. Example: Friday with
 * Saturday, Sunday and Monday covered: those three; with Tuesday a holiday, four.
 */
export function coveredDays(
  today: CivilDate,
  coveredWeekdays: readonly number[],
  holidays: readonly CivilDate[],
): readonly CivilDate[] {
  const days: CivilDate[] = [];
  for (let ahead = 1; ahead <= LONGEST_RUN; ahead += 1) {
    const on = addDays(today, ahead);
    if (!coveredWeekdays.includes(weekday(on)) && !holidays.includes(on)) break;
    days.push(on);
  }
  return days;
}

/** One care that falls due while fewer people are in, with what is missing of person, place and date. */
export interface WeekendCare {
  readonly due: DueItem;
  readonly on: CivilDate;
  /** Due before the covered days and not done. */
  readonly carriedOver: boolean;
  readonly lacks: readonly ("person" | "place" | "date")[];
}

/**
 * Everything due on the covered days, and what is due already and not done, those without a named person first.
 * Holds: any number of lines; a care that nobody wrote down is carried over. Source: common practice, no source.
 * Example: due Sunday without a person comes before due Saturday with one.
 */
export function weekendList(
  lines: readonly LineCare[],
  now: Instant,
  holidays: readonly CivilDate[],
  limits: CareLimits,
): readonly WeekendCare[] {
  const today = civilDateOf(now);
  const days = coveredDays(today, limits.coveredWeekdays, holidays);
  const last = days.at(-1);
  if (last === undefined) return [];
  // most lines have nothing due in a few days: numbers tell, before any words are made
  const endMin = (dayNumber(last) + 1) * MINUTES_PER_DAY - offsetMinutesOf(now);
  const few = lines.filter((line) => nextDue(careClock(line, now), limits).dueMin < endMin);
  const list = few.flatMap((line) =>
    careDue(line, now, limits).flatMap((due): WeekendCare[] => {
      const on = due.dueOn ?? (due.dueAt === undefined ? today : civilDateOf(due.dueAt));
      if (on > last) return [];
      const lacks = [
        ...(named(due.person) ? [] : ["person" as const]),
        ...(named(due.place) ? [] : ["place" as const]),
        ...(due.state === "not known" ? ["date" as const] : []),
      ];
      return [{ due, on, carriedOver: on <= today, lacks }];
    }),
  );
  return list.sort(
    (a, b) =>
      Number(named(a.due.person)) - Number(named(b.due.person)) ||
      compare(a.on, b.on) ||
      compare(placeOf(a), placeOf(b)) ||
      compare(a.due.lineId, b.due.lineId),
  );
}

const named = (value: Maybe<string>): boolean => !isMissing(value) && value.trim() !== "";
const placeOf = ({ due }: WeekendCare): string => (isMissing(due.place) ? "" : due.place);
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
