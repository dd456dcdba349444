import { addDays, dayNumber, midnightsBetween, type CivilDate } from "../calendar/index.ts";

/** A row of a dated table. */
export interface Dated {
  readonly validFrom: CivilDate;
}

/**
 * The surveillance conventions of one year as data. They change every January, so no number of them stands in code: the
 * caller passes the table and the date decides the row.
 */
export interface SurveillanceRule extends Dated {
  readonly name: string;
  readonly source: string;
  /** Line day from which an infection can be counted; the day of first access is day 1. */
  readonly eligibleFromLineDay: number;
  /** Days after removal on which an event still belongs to the line. */
  readonly daysAfterRemoval: number;
  /** Length of the repeat-infection timeframe, with the date of event as its first day. */
  readonly repeatFrameDays: number;
  /** Full calendar days without any line that restart the count of line days. */
  readonly daysWithoutLineToRestart: number;
  /** Days before and after the first positive specimen that form the infection window. */
  readonly windowDaysBefore: number;
  readonly windowDaysAfter: number;
  /** Hospital day from which an event counts as healthcare-associated; the day of admission is day 1. */
  readonly healthcareFromDay: number;
}

/**
 * The rule in force on a date: the latest that began on or before it.
 * Holds: any order of rows; undefined before the first. Source: definition. Example: rows of 2024 and 2025, asked on
 * 2024-12-31: the first.
 */
export function ruleInForce<Rule extends Dated>(rules: readonly Rule[], on: CivilDate): Rule | undefined {
  return rules
    .filter((rule) => dayNumber(rule.validFrom) <= dayNumber(on))
    .reduce<Rule | undefined>(
      (best, rule) => (best && dayNumber(best.validFrom) >= dayNumber(rule.validFrom) ? best : rule),
      undefined,
    );
}

/** A run of line days: one line, or lines that follow each other without a restart. */
export interface LineRun {
  readonly firstAccess: CivilDate;
  readonly removed?: CivilDate;
}

export type Eligibility =
  | "eligible"
  | "before the line"
  | "before eligibility"
  | "line never became eligible"
  | "too long after removal";

/** Which day of the line a date is; the day of first access is day 1. */
export const lineDay = (run: LineRun, on: CivilDate): number => midnightsBetween(run.firstAccess, on) + 1;

/**
 * Whether an infection on a date can be put down to a line under a rule.
 *   line day of the event >= eligible-from day, the line had reached that day, and the event is at most the permitted days
 *   after removal
 * Holds: removal not before first access, else RangeError. Source: CDC/NHSN, Patient Safety Component Manual, ch. 4, the
 * year in the rule. Example: access on 3 March, day 3 rule: 5 March is eligible, 4 March is not.
 */
export function surveillanceEligibility(run: LineRun, event: CivilDate, rule: SurveillanceRule): Eligibility {
  const onDay = lineDay(run, event);
  if (onDay < 1) return "before the line";
  if (run.removed === undefined) return onDay >= rule.eligibleFromLineDay ? "eligible" : "before eligibility";
  const lastDay = lineDay(run, run.removed);
  if (lastDay < 1)
    throw new RangeError(`The line was removed on ${run.removed}, before its first access on ${run.firstAccess}.`);
  if (lastDay < rule.eligibleFromLineDay) return onDay > lastDay ? "line never became eligible" : "before eligibility";
  if (onDay < rule.eligibleFromLineDay) return "before eligibility";
  return onDay <= lastDay + rule.daysAfterRemoval ? "eligible" : "too long after removal";
}

/**
 * Lines of one patient joined into runs whose day count goes on.
 *   a new run starts when at least the rule's number of full calendar days passed without any line
 * Holds: any order and overlap. Source: as `surveillanceEligibility` (from memory). Example: out on the 4th, new line on
 * the 5th: one run; on the 6th: two.
 */
export function lineRuns(lines: readonly LineRun[], rule: SurveillanceRule): LineRun[] {
  const runs: LineRun[] = [];
  for (const line of [...lines].sort((a, b) => dayNumber(a.firstAccess) - dayNumber(b.firstAccess))) {
    const last = runs.at(-1);
    const daysWithout =
      last?.removed === undefined ? (last ? 0 : Infinity) : midnightsBetween(last.removed, line.firstAccess) - 1;
    if (!last || daysWithout >= rule.daysWithoutLineToRestart) {
      runs.push(line);
      continue;
    }
    const open = last.removed === undefined || line.removed === undefined;
    runs[runs.length - 1] = open
      ? { firstAccess: last.firstAccess }
      : { firstAccess: last.firstAccess, removed: later(last.removed, line.removed) };
  }
  return runs;
}

const later = (a: CivilDate, b: CivilDate): CivilDate => (dayNumber(a) >= dayNumber(b) ? a : b);

export interface KeptEvent {
  readonly kept: CivilDate;
  /** Later dates inside the frame; they add their organisms to the kept event and are no events of their own. */
  readonly merged: readonly CivilDate[];
}

/**
 * Events of one type in one patient, after the repeat-infection timeframe.
 *   a date is merged while it lies within the frame's days counted from the kept event's date as day 1
 * Holds: any order. Source: CDC/NHSN, Patient Safety Component Manual, ch. 2. Example: 14 days; 3, 10, 16, 17 March and
 * 1 April: kept 3 March, 17 March and 1 April.
 */
export function mergeRepeats(dates: readonly CivilDate[], rule: SurveillanceRule): KeptEvent[] {
  const kept: { kept: CivilDate; merged: CivilDate[] }[] = [];
  for (const date of [...dates].sort((a, b) => dayNumber(a) - dayNumber(b))) {
    const open = kept.at(-1);
    if (open && midnightsBetween(open.kept, date) < rule.repeatFrameDays) open.merged.push(date);
    else kept.push({ kept: date, merged: [] });
  }
  return kept;
}

/**
 * Date of event: the first element of the criterion inside the infection window.
 *   window = specimen date less `windowDaysBefore` to specimen date plus `windowDaysAfter`
 * Holds: the specimen itself is an element. Source: as `mergeRepeats`. Example: 3 and 3 days, specimen on the 10th, fever
 * on the 6th and 8th: the 8th.
 */
export function dateOfEvent(specimen: CivilDate, elements: readonly CivilDate[], rule: SurveillanceRule): CivilDate {
  const [opens, closes] = [addDays(specimen, -rule.windowDaysBefore), addDays(specimen, rule.windowDaysAfter)];
  return elements
    .filter((date) => dayNumber(date) >= dayNumber(opens) && dayNumber(date) <= dayNumber(closes))
    .reduce((first, date) => (dayNumber(date) < dayNumber(first) ? date : first), specimen);
}

/** Whether an event counts as healthcare-associated: on the rule's hospital day or later, the day of admission being 1. */
export const isHealthcareAssociated = (admitted: CivilDate, event: CivilDate, rule: SurveillanceRule): boolean =>
  midnightsBetween(admitted, event) + 1 >= rule.healthcareFromDay;
