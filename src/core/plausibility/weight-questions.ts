import { inch, inchToCentimetre, pound, poundToKilogram, type Centimetre, type Kilogram } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";
import type { PlausibleLimits } from "./plausible-limits.ts";
import { question } from "./question.ts";

/** The rule of thumb is tight enough to ask about heavy children in the first years only. */
const YOUNG_YEARS = 6;
/** Above this age the rule of thumb is not taught. */
const CHILD_RULE_YEARS = 13;
const WEIGHT = "patient.weightKg";

/**
 * Usual weight of a child.
 *   under 1 year: (months + 9) / 2      1 to 5 years: 2 x (years + 5)      6 to 12 years: 3 x years + 7      (kg)
 * Holds: term children to 12 years; a rule of thumb for asking, never for dosing.
 * Source: common practice, no source (resuscitation teaching, from memory).
 * Example: 3 years: 16 kg.
 */
export function usualWeightKg(ageYears: number): number {
  if (ageYears < 1) return (ageYears * 12 + 9) / 2;
  return ageYears < YOUNG_YEARS ? 2 * (ageYears + 5) : 3 * ageYears + 7;
}

export interface Body {
  readonly adult: boolean;
  readonly ageDays: number;
  readonly weightKg: Kilogram;
  readonly heightCm: Centimetre | undefined;
}

/** Asks when weight, age and height do not go together; echoes both readings and converts nothing. One slip, one question. */
export function weightQuestions(body: Body, limits: PlausibleLimits): readonly Finding[] {
  const { weightKg, heightCm } = body;
  const years = body.ageDays / 365.25;
  const asKg = poundToKilogram(pound(weightKg));
  if (years < YOUNG_YEARS && weightKg > limits.timesUsualWeight * usualWeightKg(years)) {
    return [question("weight-in-pounds", WEIGHT, "plausible.times-usual-weight", { kg: weightKg, asKg })];
  }
  // in the first year an early birth explains a low weight, so only older children are asked about
  const least = body.adult
    ? limits.leastAdultWeightKg
    : years >= 1 && years < CHILD_RULE_YEARS
      ? limits.shareOfUsualWeight * usualWeightKg(years)
      : 0;
  if (weightKg < least) {
    const row = body.adult ? "plausible.least-adult-weight" : "plausible.share-usual-weight";
    return [question("weight-low-for-age", WEIGHT, row, { kg: weightKg, years: Math.floor(years) })];
  }
  if (heightCm === undefined) return [];
  if (body.adult && heightCm < limits.shortestAdultCm) {
    const values = { cm: heightCm, asCm: inchToCentimetre(inch(heightCm)) };
    return [question("height-in-inches", "patient.heightCm", "plausible.shortest-adult", values)];
  }
  // a newborn's weight for height is low by nature
  if (years < 1) return [];
  const index = weightKg / (heightCm / 100) ** 2;
  if (index > limits.mostBodyMassIndex) {
    return [
      question("weight-high-for-height", WEIGHT, "plausible.most-body-mass-index", { kg: weightKg, asKg, heightCm }),
    ];
  }
  if (index < limits.leastBodyMassIndex) {
    return [question("weight-low-for-height", WEIGHT, "plausible.least-body-mass-index", { kg: weightKg, heightCm })];
  }
  return [];
}
