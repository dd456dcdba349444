import { addDays, dayNumber, midnightsBetween, type CivilDate } from "../calendar/index.ts";
import type { SurveillanceRule } from "./surveillance.ts";

/** Dates, both counted. */
export interface Dates {
  readonly from: CivilDate;
  readonly to: CivilDate;
}

/**
 * The dates on which a bloodstream infection is put down to an infection of another site.
 *   from the first day of that infection's window to the last day of its repeat frame: 14 to 17 days by the usual rule
 * Holds: the date of event within the window up to the specimen, else RangeError. Source: CDC/NHSN, Patient Safety Component
 * Manual, ch. 2 (length from memory). Example: specimen on 10 March, event on the 8th: 7 to 21 March.
 */
export function attributionPeriod(specimen: CivilDate, dateOfEvent: CivilDate, rule: SurveillanceRule): Dates {
  const before = midnightsBetween(dateOfEvent, specimen);
  if (before < 0 || before > rule.windowDaysBefore)
    throw new RangeError(`The event of ${dateOfEvent} lies outside the window of the specimen of ${specimen}.`);
  return { from: addDays(specimen, -rule.windowDaysBefore), to: addDays(dateOfEvent, rule.repeatFrameDays - 1) };
}

/** A stay in one ward; without an end the patient is there still. */
export interface WardStay {
  readonly ward: string;
  readonly from: CivilDate;
  readonly to?: CivilDate;
}

/**
 * The ward an event is put down to: the one of that date, or the one left shortly before.
 *   the ward left on the date of the event or on one of `daysAfterMove` days before it, the first of several; else where the patient is
 * The same counts after discharge: the last ward holds the event for as many days, then nobody.
 * Holds: any order of stays, which meet on the date of a move. Source: CDC/NHSN, Patient Safety Component Manual, ch. 2 and 4:
 * one day (transfer from memory). Example: A to 5 March, B from 5 March: an event on 5 or 6 March is A's, on the 7th B's.
 */
export function wardOfEvent(stays: readonly WardStay[], event: CivilDate, daysAfterMove: number): string | undefined {
  const on = dayNumber(event);
  const ordered = [...stays].sort((a, b) => dayNumber(a.from) - dayNumber(b.from));
  const left = ordered.find(({ to }) => to !== undefined && dayNumber(to) <= on && on - dayNumber(to) <= daysAfterMove);
  if (left) return left.ward;
  return ordered.findLast(({ from, to }) => dayNumber(from) <= on && (to === undefined || dayNumber(to) >= on))?.ward;
}

/**
 * The date of an event whose first element lies just before admission.
 *   an element on one of `daysBefore` days before admission counts as the day of admission
 * Holds: later elements keep their own date; earlier ones are no element of this stay and give undefined. Source: CDC/NHSN,
 * Patient Safety Component Manual, ch. 2: two days. Example: admitted on 10 March, fever on the 8th: 10 March; on the 7th: none.
 */
export function dateOnAdmission(element: CivilDate, admitted: CivilDate, daysBefore: number): CivilDate | undefined {
  const before = midnightsBetween(element, admitted);
  if (before <= 0) return element;
  return before <= daysBefore ? admitted : undefined;
}
