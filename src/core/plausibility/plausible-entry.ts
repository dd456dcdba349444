import { inch, inchToCentimetre, poundToKilogram, pound, type Centimetre, type Kilogram } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";

export interface PlausibleLimits {
  /** A young child heavier than this many times the usual weight for its age is asked about. */
  readonly timesUsualWeight: number;
  /** An adult's tape from arm to heart shorter than this is asked about. */
  readonly shortestAdultTapeCm: Centimetre;
}

/** The rule of thumb for weight by age holds for the first years only. */
const YOUNG_YEARS = 6;

/**
 * Usual weight of a young child.
 *   under 1 year: (months + 9) / 2      1 to 5 years: 2 x (years + 5)      (kg)
 * Holds: term children to 5 years; a rule of thumb for asking, never for dosing.
 * Source: common practice, no source (resuscitation teaching, from memory).
 */
export function usualWeightKg(ageYears: number): number {
  return ageYears < 1 ? (ageYears * 12 + 9) / 2 : 2 * (ageYears + 5);
}

/** Asks when a weight looks like pounds; echoes both readings and converts nothing. */
export function weightQuestion(ageDays: number, weightKg: Kilogram, limits: PlausibleLimits): readonly Finding[] {
  const years = ageDays / 365.25;
  if (years >= YOUNG_YEARS || weightKg <= limits.timesUsualWeight * usualWeightKg(years)) return [];
  const values = { kg: weightKg, asKg: poundToKilogram(pound(weightKg)) };
  return [
    {
      code: "weight-in-pounds",
      verdict: "not known",
      level: "ask",
      values,
      policy: ["plausible.times-usual-weight"],
      path: "patient.weightKg",
    },
  ];
}

/** Asks when an adult's tape looks like inches; echoes both readings and converts nothing. */
export function tapeQuestion(tapeCm: Centimetre, path: string, limits: PlausibleLimits): readonly Finding[] {
  if (tapeCm >= limits.shortestAdultTapeCm) return [];
  const values = { cm: tapeCm, asCm: inchToCentimetre(inch(tapeCm)) };
  return [
    {
      code: "length-in-inches",
      verdict: "not known",
      level: "ask",
      values,
      policy: ["plausible.shortest-adult-tape"],
      path,
    },
  ];
}
