import { ageInDays, type Age } from "../core/age/index.ts";
import { isMissing, type Maybe } from "../core/missing/index.ts";
import type { Fault } from "./fault.ts";

/** Nobody is older; a larger number is a slip or another unit. */
const OLDEST_YEARS = 130;

/** An age nobody reaches, and an age from term that is older than the age from birth. */
export function ageFaults(patient: {
  readonly age?: Maybe<Age> | undefined;
  readonly correctedAgeDays?: Maybe<number> | undefined;
}): readonly Fault[] {
  const { age, correctedAgeDays } = patient;
  if (age === undefined || isMissing(age)) return [];
  const faults: Fault[] = [];
  if (age.unit === "years" && age.value > OLDEST_YEARS) {
    const rule = `at most ${OLDEST_YEARS} years`;
    faults.push({ path: "patient.age.value", code: "out-of-range", found: String(age.value), rule });
  }
  if (typeof correctedAgeDays === "number" && correctedAgeDays > ageInDays(age)) {
    const rule = "no more than the age from birth";
    faults.push({ path: "patient.correctedAgeDays", code: "contradicts", found: `${correctedAgeDays} days`, rule });
  }
  return faults;
}
