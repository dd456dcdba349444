import { addDays, type CivilDate } from "../../core/calendar/index.ts";

/** Spreadsheet programs count days from one of two beginnings. */
export type DateSystem = 1900 | 1904;

/** The day that never was: the 1900 system counts 29 February 1900 as its 60th day. */
const LEAP_DAY_THAT_NEVER_WAS = 60;

/**
 * The date of a day count.
 *   1904: 1 January 1904 + serial
 *   1900: 31 December 1899 + serial, one less from serial 61 on, because 1900 is counted as a leap year
 * Holds: whole part of at least 0 (1904) or 1 (1900); serial 60 of 1900 is no day; undefined otherwise, and past year 9999.
 * Source: ECMA-376 part 1, 18.17.4 (from memory). Example: 45658 in the 1900 system is 1 January 2025.
 */
export function dateOfSerial(serial: number, system: DateSystem): CivilDate | undefined {
  const day = Math.floor(serial);
  if (!Number.isFinite(serial) || day < (system === 1900 ? 1 : 0) || day > 2_957_003) return undefined;
  if (system === 1904) return addDays("1904-01-01" as CivilDate, day);
  if (day === LEAP_DAY_THAT_NEVER_WAS) return undefined;
  return addDays("1899-12-31" as CivilDate, day > LEAP_DAY_THAT_NEVER_WAS ? day - 1 : day);
}

/** A serial as text: the date, and the time to the minute where the serial has a part of a day. */
export function dateTextOfSerial(serial: number, system: DateSystem): string | undefined {
  const minutes = Math.round((serial - Math.floor(serial)) * 1440);
  const date = dateOfSerial(minutes === 1440 ? serial + 0.5 : serial, system);
  if (!date || minutes % 1440 === 0) return date;
  const two = (part: number) => String(part).padStart(2, "0");
  return `${date} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
