import { dayNumber, type CivilDate } from "../calendar/index.ts";
import { day, type Day } from "../quantity/index.ts";
import { localMinute, MINUTES_PER_DAY } from "./moment.ts";
import { endOf, hasDatesAlone, isTimed, stayDates, stayInMinutes, type Stay } from "./stay.ts";

/** Four ways to count the days of a line. They differ by a fifth on the same lines: the name goes beside every rate. */
export const LINE_CLOCKS = [
  "exact line-days",
  "calendar line-days, both ends",
  "line-days by date difference",
  "line-days at census",
] as const;
export type LineClock = (typeof LINE_CLOCKS)[number];

/** Days of patients with any line: two lines at once count one. */
export const PATIENT_CLOCKS = ["calendar patient-days", "patient-days at census"] as const;
export type PatientClock = (typeof PATIENT_CLOCKS)[number];

/** A half-open reporting window: from the first date's midnight up to, not with, the last date's. */
export interface Window {
  readonly from: CivilDate;
  readonly to: CivilDate;
  /** Minutes the local clock is ahead of UTC at each end. */
  readonly fromOffset: number;
  readonly toOffset: number;
}

export interface DayCount<Clock extends LineClock | PatientClock> {
  readonly days: Day;
  readonly clock: Clock;
  /** Lines that add to the figure, of all that were given. */
  readonly linesUsed: number;
  readonly linesGiven: number;
  /** Of the lines used, those whose ends are dates without a time. */
  readonly linesWithoutTime: number;
}

/**
 * Days of lines in a window, on a named clock.
 *   exact            (removal - insertion) / 86,400 s of UTC, clipped to the window, unrounded; dates alone to its dates
 *   calendar         local dates touched, first and last both counted
 *   date difference  midnights passed
 *   census           dates on which insertion <= census minute < removal, by the local clock
 * Units: days of the clock named in the answer. Holds: window not empty, else RangeError; a line whose ends are out of
 * order is left out and not counted as used. A line in place counts to its last known moment.
 * Source: common practice, no source; census as in the published surveillance standard of CDC/NHSN, ch. 4.
 * Example: 3 March 09:30 to 10 March 16:45: 7.302083, 8, 7 and, at noon, 8.
 */
export function lineDays<Clock extends LineClock>(
  stays: readonly Stay[],
  window: Window,
  clock: Clock,
  censusMinute: number,
): DayCount<Clock> {
  check(window, censusMinute);
  const count = counters(window, censusMinute)[clock];
  let [days, linesUsed, linesWithoutTime] = [0, 0, 0];
  for (const stay of stays) {
    const own = count(stay);
    if (!(own > 0) || stayInMinutes(stay) === "ends out of order") continue;
    days += own;
    linesUsed += 1;
    if (!isTimed(stay)) linesWithoutTime += 1;
  }
  return { days: day(days), clock, linesUsed, linesGiven: stays.length, linesWithoutTime };
}

/**
 * Days of patients with at least one line in a window.
 *   the union over a patient's lines of the dates touched (calendar) or of the dates counted (census)
 * Units: days of the clock named. Holds: as `lineDays`. Source: as `lineDays`.
 * Example: lines of 6 to 20 and of 15 to 25 March in one patient: 26 calendar line-days, 20 patient-days.
 */
export function patientDays<Clock extends PatientClock>(
  stays: readonly Stay[],
  window: Window,
  clock: Clock,
  censusMinute: number,
): DayCount<Clock> {
  check(window, censusMinute);
  const range = (stay: Stay) =>
    clipped(clock === "calendar patient-days" ? stayDates(stay) : censusDates(stay, censusMinute), window);
  const length = (stay: Stay) => Math.max(0, range(stay).last - range(stay).first + 1);
  return total(stays, clock, (used) => unionOf(used, range), length);
}

interface Dates {
  readonly first: number;
  readonly last: number;
}

function counters(window: Window, censusMinute: number): Readonly<Record<LineClock, (stay: Stay) => number>> {
  const { fromOffset, toOffset } = window;
  const length = ({ first, last }: Dates) => Math.max(0, last - first + 1);
  const [from, to] = [dayNumber(window.from), dayNumber(window.to)];
  return {
    "exact line-days": (stay) => {
      const span = stayInMinutes(stay);
      if (typeof span === "string") return 0;
      const onWall = hasDatesAlone(stay);
      const opens = from * MINUTES_PER_DAY - (onWall ? 0 : fromOffset);
      const closes = to * MINUTES_PER_DAY - (onWall ? 0 : toOffset);
      return Math.max(0, Math.min(span.to, closes) - Math.max(span.from, opens)) / MINUTES_PER_DAY;
    },
    "calendar line-days, both ends": (stay) => length(clipped(stayDates(stay), window)),
    "line-days by date difference": (stay) => {
      const { first, last } = stayDates(stay);
      return Math.max(0, Math.min(last, to) - Math.max(first, from));
    },
    "line-days at census": (stay) => length(clipped(censusDates(stay, censusMinute), window)),
  };
}

/** Dates on which the line is in at the census minute: in at or before it, out after it. */
function censusDates(stay: Stay, censusMinute: number): Dates {
  const { first, last } = stayDates(stay);
  return {
    first: localMinute(stay.inserted) <= censusMinute ? first : first + 1,
    last: localMinute(endOf(stay)) > censusMinute ? last : last - 1,
  };
}

const clipped = ({ first, last }: Dates, window: Window): Dates => ({
  first: Math.max(first, dayNumber(window.from)),
  last: Math.min(last, dayNumber(window.to) - 1),
});

/** Dates covered by any line of the same patient, each once. */
function unionOf(stays: readonly Stay[], range: (stay: Stay) => Dates): number {
  const byPatient = new Map<string, Dates[]>();
  for (const stay of stays) {
    const own = byPatient.get(stay.patient);
    if (own) own.push(range(stay));
    else byPatient.set(stay.patient, [range(stay)]);
  }
  let sum = 0;
  for (const own of byPatient.values()) {
    let covered = -Infinity;
    for (const { first, last } of own.sort((a, b) => a.first - b.first)) {
      sum += Math.max(0, last - Math.max(first, covered + 1) + 1);
      covered = Math.max(covered, last);
    }
  }
  return sum;
}

function total<Clock extends LineClock | PatientClock>(
  stays: readonly Stay[],
  clock: Clock,
  add: (used: readonly Stay[]) => number,
  own: (stay: Stay) => number,
): DayCount<Clock> {
  const used = stays.filter((stay) => typeof stayInMinutes(stay) !== "string" && own(stay) > 0);
  return {
    days: day(add(used)),
    clock,
    linesUsed: used.length,
    linesGiven: stays.length,
    linesWithoutTime: used.filter((stay) => !isTimed(stay)).length,
  };
}

function check(window: Window, censusMinute: number): void {
  if (!(censusMinute >= 0 && censusMinute < MINUTES_PER_DAY))
    throw new RangeError(`The census minute is ${censusMinute}; it must be from 0 to 1439.`);
  if (!(dayNumber(window.from) < dayNumber(window.to)))
    throw new RangeError(`The window runs from ${window.from} to ${window.to}; the end must come after the start.`);
}
