import { addDays, midnightsBetween, type CivilDate } from "../calendar/index.ts";
import type { Dated } from "./surveillance.ts";

/** How a surveillance standard of one time lets a ward make up its days. */
export interface DenominatorRule extends Dated {
  readonly name: string;
  readonly source: string;
  /** Line-days a month, on average of the year before, from which a ward may count on one day of the week only. */
  readonly leastLineDaysToSample: number;
  /** Months in a row that the count by machine must agree with that by hand before it may stand alone. */
  readonly agreementMonths: number;
}

/**
 * Share of patient-days with a line: how much a ward uses lines.
 *   line-days / patient-days, both of patients at one hour of each day
 * Units: share from 0 to 1. Holds: whole counts; no patient-days, and more days with a line than days, are named and give
 * no share; RangeError below zero. Source: CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4,
 * "Device Utilization Ratio". Example: 120 of 400: 0.3.
 */
export function deviceUtilisation(
  lineDays: number,
  patientDays: number,
): number | "no patient-days" | "more line-days than patient-days" {
  if (!(lineDays >= 0 && patientDays >= 0))
    throw new RangeError(`${lineDays} line-days and ${patientDays} patient-days; neither is below zero.`);
  if (lineDays > patientDays) return "more line-days than patient-days";
  return patientDays === 0 ? "no patient-days" : lineDays / patientDays;
}

/** Patients counted on one weekday of a month: with a line, and all; each summed over those days. */
export interface SampledDays {
  readonly withLine: number;
  readonly all: number;
}

/**
 * Line-days of a month from a count on one weekday.
 *   patient-days of the month x sampled with a line / sampled of all
 * Units: line-days, unrounded. Holds: patient-days of the whole month, counted every day; what `deviceUtilisation` names
 * gives no days. Source: CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4, table 7, for what is
 * counted; Thompson ND and others 2015, Am J
 * Infect Control 43:853, for its accuracy. Example: 30 of 100 on the Tuesdays, 412 patient-days: 123.6.
 */
export function sampledLineDays(
  sampled: SampledDays,
  patientDays: number,
): number | Exclude<ReturnType<typeof deviceUtilisation>, number> {
  const share = deviceUtilisation(sampled.withLine, sampled.all);
  return typeof share === "string" ? share : share * patientDays;
}

export type MaySample = "may sample" | "too few line-days" | "not known";

/**
 * Whether a ward may count on one weekday only.
 *   mean line-days a month of the twelve months before >= the rule's
 * Holds: at least one of those months counted, else not known. Source: as `sampledLineDays`.
 * Example: 75 and 77 under a rule of 75: may sample; 74: too few.
 */
export function maySample(lineDaysOfMonthsBefore: readonly number[], rule: DenominatorRule): MaySample {
  const months = lineDaysOfMonthsBefore.slice(-12);
  if (months.length === 0) return "not known";
  const mean = months.reduce((sum, days) => sum + days, 0) / months.length;
  return mean >= rule.leastLineDaysToSample ? "may sample" : "too few line-days";
}

/** A month of a ward counted twice; `month` is its first day. */
export interface CountedTwice {
  readonly month: CivilDate;
  readonly byMachine: number;
  readonly byHand: number;
}

/**
 * The month at whose end a ward's count by machine may stand alone.
 *   the first month that ends a row of the rule's months, none left out, each |machine - hand| <= share of hand
 * Holds: any order; undefined while no such row is complete. Source: CDC/NHSN, Patient Safety Component Manual, January 2025,
 * ch. 4, table 7: three months, 5 per cent. Example: January to March within 5 per cent: March; with February at 6 per cent: not yet.
 */
export function machineCountFrom(
  months: readonly CountedTwice[],
  rule: DenominatorRule,
  share: number,
): CivilDate | undefined {
  let run = 0;
  let before: CivilDate | undefined;
  for (const { month, byMachine, byHand } of [...months].sort((a, b) => (a.month < b.month ? -1 : 1))) {
    const next = before !== undefined && isNextMonth(before, month);
    const agrees = Math.abs(byMachine - byHand) <= share * byHand;
    run = agrees ? (next ? run : 0) + 1 : 0;
    if (run >= rule.agreementMonths) return month;
    before = month;
  }
  return undefined;
}

const isNextMonth = (before: CivilDate, month: CivilDate): boolean =>
  midnightsBetween(before, month) > 0 && addDays(before, 31).slice(0, 7) === month.slice(0, 7);
