import { normalQuantile, poissonAtLeast, poissonAtMost, poissonChance } from "../distribution/index.ts";
import type { Overdispersion } from "./funnel.ts";

export type FunnelScore = "Pearson" | "mid-P" | "square root";

/**
 * How far a unit stands from its target, in standard errors.
 *   Pearson      (x - E) / sqrt E
 *   mid-P        Phi^-1 of P(X < x | E) + P(X = x | E) / 2
 *   square root  2 (sqrt x - sqrt E)
 * Pearson's is too large on the high side of few events; mid-P agrees with the exact limits of the funnel.
 * Units: standard errors, above zero for more than expected. Holds: whole count, E above zero, else RangeError.
 * Source: Spiegelhalter DJ 2005, Stat Med 24:1185 (from memory). Example: 20 against 10.632967: 2.872598, 2.582615, 2.422626.
 */
export function targetScore(observed: number, expected: number, score: FunnelScore): number {
  if (!(expected > 0 && expected < Infinity))
    throw new RangeError(`${expected} events are expected; a score needs a finite number above zero.`);
  if (!(Number.isInteger(observed) && observed >= 0))
    throw new RangeError(`There are ${observed} events; the count must be whole and not below zero.`);
  if (score === "Pearson") return (observed - expected) / Math.sqrt(expected);
  if (score === "square root") return 2 * (Math.sqrt(observed) - Math.sqrt(expected));
  const half = poissonChance(observed, expected) / 2;
  // the smaller tail keeps its digits
  return observed > expected
    ? -normalQuantile(poissonAtLeast(observed + 1, expected) + half)
    : normalQuantile(poissonAtMost(observed - 1, expected) + half);
}

/**
 * A score once the spread between units is allowed for.
 *   multiplicative  z / sqrt phi, where phi is above one
 *   additive        z s / sqrt(s^2 + tau^2), which widens the large units more: preferred
 * Units: standard errors. Holds: s above zero, else RangeError; nothing is widened where `widen` is false.
 * Source: Spiegelhalter DJ 2005, Stat Med 24:1185, section 5 (from memory).
 * Example: z 3 of error 1, phi 4, tau^2 3: 1.5 both ways.
 */
export function widenedScore(
  z: number,
  standardError: number,
  spread: Overdispersion,
  form: "multiplicative" | "additive",
): number {
  if (!(standardError > 0)) throw new RangeError(`The standard error is ${standardError}; it must be above zero.`);
  if (!spread.widen) return z;
  return form === "multiplicative"
    ? z / Math.sqrt(Math.max(1, spread.dispersion))
    : (z * standardError) / Math.hypot(standardError, Math.sqrt(spread.between));
}

/**
 * Chances of many units, raised so that of all flagged below a share no more than that share are false on average.
 *   p (i) x units / i, i the rank from the smallest, never below a smaller one's, at most one
 * Holds: chances from zero to one, else RangeError; units independent. Source: Benjamini Y, Hochberg Y 1995, J R Stat Soc B
 * 57:289. Example: 0.01, 0.02, 0.9: 0.03, 0.03, 0.9.
 */
export function falseDiscoveryChances(chances: readonly number[]): number[] {
  const odd = chances.find((chance) => !(chance >= 0 && chance <= 1));
  if (odd !== undefined) throw new RangeError(`A chance is ${odd}; it must be from zero to one.`);
  const order = chances.map((_, at) => at).sort((a, b) => (chances[b] as number) - (chances[a] as number));
  const result = [...chances];
  let least = 1;
  for (const [rankFromTop, at] of order.entries()) {
    least = Math.min(least, ((chances[at] as number) * chances.length) / (chances.length - rankFromTop));
    result[at] = least;
  }
  return result;
}

/**
 * Flags to expect by chance alone when so many units are held against limits.
 *   units x (share below the lower limit + share above the upper one)
 * Units: units. Holds: shares from zero to one, else RangeError. Source: definition.
 * Example: 12 units at 0.025 and 0.975: 0.6.
 */
export function falseFlagsExpected(units: number, lower: number, upper: number): number {
  if (!(units >= 0 && lower >= 0 && upper <= 1 && lower <= upper))
    throw new RangeError(`${units} units between ${lower} and ${upper}: give rising shares from zero to one.`);
  return units * (lower + 1 - upper);
}

/**
 * Rate or share of all others, the unit in question left out: a target that the unit itself does not pull.
 *   (sum x - x_i) / (sum T - T_i)
 * Units: events per unit of exposure. Holds: exposure left above zero, else RangeError. Source: Spiegelhalter DJ 2005
 * (from memory). Example: 2 in 10, 4 in 20, 9 in 30: the third has 0.2.
 */
export function targetWithout(count: readonly number[], exposure: readonly number[], unit: number): number {
  const others = (values: readonly number[]) => values.reduce((sum, value, at) => (at === unit ? sum : sum + value), 0);
  const left = others(exposure);
  if (!(unit in count && count.length === exposure.length && left > 0))
    throw new RangeError(`Unit ${unit} of ${count.length}: without it no exposure is left to make a target of.`);
  return others(count) / left;
}
