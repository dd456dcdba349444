import { isMissing, type Maybe } from "../missing/index.ts";

export const AGE_UNITS = ["years", "months", "weeks", "days"] as const;
export type AgeUnit = (typeof AGE_UNITS)[number];

/** An age as it was said. The unit has no default: "14" alone is no age. */
export interface Age {
  readonly value: number;
  readonly unit: AgeUnit;
}

/** What tells a newborn from a child from an adult. */
export interface AgeOfPatient {
  readonly age: Maybe<Age>;
  readonly bornPreterm: Maybe<boolean>;
  /** Age counted from term, in days; asked when born preterm. */
  readonly correctedAgeDays: Maybe<number>;
}

/** Where the groups part (policy). */
export interface AgeBorders {
  readonly newbornUnderDays: number;
  readonly adultFromYears: number;
}

export const AGE_GROUPS = ["newborn", "child", "adult"] as const;
export type AgeGroup = (typeof AGE_GROUPS)[number];

const DAYS_IN: Readonly<Record<AgeUnit, number>> = { days: 1, weeks: 7, months: 365.25 / 12, years: 365.25 };

/** An age in days, near enough to tell a newborn from a child; never used to count days in place. */
export const ageInDays = (age: Age): number => age.value * DAYS_IN[age.unit];

export const ageInYears = (age: Age): number => (age.unit === "years" ? age.value : ageInDays(age) / DAYS_IN.years);

/** The earliest births that live come about 17 weeks before term. */
const EARLIEST_BIRTH_DAYS = 17 * 7;

/** Whether this child could still be a newborn by its age from term, and nobody has said. */
export function pretermMatters(
  patient: AgeOfPatient,
  { newbornUnderDays }: Pick<AgeBorders, "newbornUnderDays">,
): boolean {
  const { age, bornPreterm, correctedAgeDays } = patient;
  if (isMissing(age) || bornPreterm === false) return false;
  if (bornPreterm === true && !isMissing(correctedAgeDays)) return false;
  const days = ageInDays(age);
  return days >= newbornUnderDays && days < newbornUnderDays + EARLIEST_BIRTH_DAYS;
}

/** Past this age the weeks before term no longer matter, and a corrected age left in a form must not make an adult a newborn. */
const CORRECTED_UNDER_DAYS = 2 * DAYS_IN.years;

/** Age from term of a young child born early; undefined where it does not apply or is not known. */
export function correctedDays(patient: AgeOfPatient): number | undefined {
  const { age, bornPreterm, correctedAgeDays } = patient;
  if (isMissing(age) || bornPreterm !== true || isMissing(correctedAgeDays)) return undefined;
  return ageInDays(age) < CORRECTED_UNDER_DAYS ? correctedAgeDays : undefined;
}

/**
 * Newborn, child or adult. A child born before term is judged by the age counted from term where that is known.
 * Undefined when the age is missing: then no rule of any group applies.
 */
export function ageGroupOf(patient: AgeOfPatient, policy: AgeBorders): AgeGroup | undefined {
  if (isMissing(patient.age)) return undefined;
  const days = correctedDays(patient) ?? ageInDays(patient.age);
  if (days < policy.newbornUnderDays) return "newborn";
  if (patient.age.unit === "years") return patient.age.value < policy.adultFromYears ? "child" : "adult";
  return days < policy.adultFromYears * DAYS_IN.years ? "child" : "adult";
}
