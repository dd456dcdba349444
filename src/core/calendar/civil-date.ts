/**
 * A civil date as its ISO text ("2026-11-25"): a day on a wall calendar, without a clock or a zone.
 * Arithmetic runs on day numbers (days since 1970-01-01), so no time zone can move a date.
 */
declare const civil: unique symbol;
export type CivilDate = string & { readonly [civil]: true };

const DAYS_PER_ERA = 146_097; // 400 Gregorian years
const ZERO = 48; // the code of "0"
const EPOCH_SHIFT = 719_468; // days from 0000-03-01 to 1970-01-01

/** Reads "YYYY-MM-DD"; anything else, and a day that does not exist, is undefined. */
export function parseCivilDate(text: string): CivilDate | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return undefined;
  return civilDateFromDayNumber(dayNumberOf(Number(match[1]), Number(match[2]), Number(match[3]))) === text
    ? (text as CivilDate)
    : undefined;
}

/**
 * Days since 1970-01-01 of a Gregorian date.
 * Source: Hinnant H. 2013, "chrono-compatible low-level date algorithms", days_from_civil (from memory).
 */
function dayNumberOf(year: number, month: number, dayOfMonth: number): number {
  const shifted = month <= 2 ? year - 1 : year; // the year starts in March, so a leap day is its last
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + dayOfMonth - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * DAYS_PER_ERA + dayOfEra - EPOCH_SHIFT;
}

/** Digits are read where they stand: a register of 100,000 lines asks millions of times. */
export function dayNumber(date: CivilDate): number {
  const tens = (at: number) => (date.charCodeAt(at) - ZERO) * 10 + date.charCodeAt(at + 1) - ZERO;
  return dayNumberOf(tens(0) * 100 + tens(2), tens(5), tens(8));
}

export function civilDateFromDayNumber(days: number): CivilDate {
  const shifted = days + EPOCH_SHIFT;
  const era = Math.floor(shifted / DAYS_PER_ERA);
  const dayOfEra = shifted - era * DAYS_PER_ERA;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const dayOfMonth = dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1;
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const two = (part: number) => String(part).padStart(2, "0");
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(dayOfMonth)}` as CivilDate;
}

/** Midnights from the first date to the second: 3 June to 17 June is 14. */
export const midnightsBetween = (from: CivilDate, to: CivilDate): number => dayNumber(to) - dayNumber(from);

export const addDays = (date: CivilDate, days: number): CivilDate => civilDateFromDayNumber(dayNumber(date) + days);

/** 0 Monday to 6 Sunday. */
export const weekday = (date: CivilDate): number => (((dayNumber(date) + 3) % 7) + 7) % 7;
