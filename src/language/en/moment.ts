import {
  civilDateOf,
  clockOf,
  midnightsBetween,
  weekday,
  type CivilDate,
  type Instant,
} from "../../core/calendar/index.ts";

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];
const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/** A day with its month as a word, so that 3/6 can never be 6/3: "Tue 5 Aug 2025". */
export const sayDay = (date: CivilDate): string =>
  `${(DAYS[weekday(date)] as string).slice(0, 3)} ${Number(date.slice(8, 10))} ${(MONTHS[Number(date.slice(5, 7)) - 1] as string).slice(0, 3)} ${date.slice(0, 4)}`;

/** A month in the width of a column: "Aug 25". */
export const sayMonth = (date: CivilDate): string =>
  `${(MONTHS[Number(date.slice(5, 7)) - 1] as string).slice(0, 3)} ${date.slice(2, 4)}`;

/** A span of so many months that begins on or after its first day, in the width of a column: "Aug 25", "Q3 25", "2025". */
export function saySpan(from: CivilDate, months: number): string {
  const [year, month] = [Number(from.slice(0, 4)), Number(from.slice(5, 7))];
  if (months < 3) return sayMonth(from);
  if (months < 12) return `Q${Math.ceil(month / 3)} ${from.slice(2, 4)}`;
  if (months === 12) return String(year);
  const years = months / 12;
  const last = year - (year % years) + years - 1;
  return last === year ? String(year) : `${year} to ${String(last).slice(2)}`;
}

/** A moment as the clock showed it there: "Tue 5 Aug 2025, 14:05". */
export const sayMoment = (instant: Instant): string => `${sayDay(civilDateOf(instant))}, ${clockOf(instant)}`;

/** How far a day is from today, in words: "today", "tomorrow", "5 days ago". */
export function sayDistance(date: CivilDate, today: CivilDate): string {
  const days = midnightsBetween(today, date);
  if (days === 0) return "today";
  if (days === 1) return "tomorrow";
  if (days === -1) return "yesterday";
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
}
