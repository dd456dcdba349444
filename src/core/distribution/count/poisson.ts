import { incompleteGamma, poissonTerm } from "../special/index.ts";
import { checkCount, smallestCount } from "./count.ts";

function checkMean(mean: number): void {
  if (!(mean >= 0 && mean < Infinity)) throw new RangeError(`The mean is ${mean}; it must be zero or more and finite.`);
}

/**
 * Chance of exactly k events.
 *   P(X = k) = m^k e^-m / k!
 * Holds: k whole, m >= 0, else RangeError; relative error as `incompleteGamma`. Source: Loader 2000 (from memory).
 * Example: poissonChance(3, 2) = 0.1804470.
 */
export function poissonChance(count: number, mean: number): number {
  checkCount(count);
  checkMean(mean);
  return count < 0 ? 0 : poissonTerm(count, mean);
}

/**
 * Chance of k events or fewer.
 *   P(X <= k) = Q(k + 1, m)
 * Holds: k whole, m >= 0, else RangeError; relative error as `incompleteGamma`.
 * Source: Abramowitz and Stegun 1964, 26.4.21. Example: poissonAtMost(3, 2) = 0.8571235.
 */
export function poissonAtMost(count: number, mean: number): number {
  checkCount(count);
  checkMean(mean);
  return count < 0 ? 0 : incompleteGamma(count + 1, mean).upper;
}

/**
 * Chance of k events or more.
 *   P(X >= k) = P(k, m), the lower incomplete gamma
 * Holds: k whole, m >= 0, else RangeError; relative error as `incompleteGamma`.
 * Source: Abramowitz and Stegun 1964, 26.4.21. Example: poissonAtLeast(3, 2) = 0.3233236.
 */
export function poissonAtLeast(count: number, mean: number): number {
  checkCount(count);
  checkMean(mean);
  return count <= 0 ? 1 : incompleteGamma(count, mean).lower;
}

/**
 * The smallest count whose upper tail is below a bound: the first count that would be a signal.
 *   smallest k with P(X >= k) < p
 * Holds: m >= 0, 0 < p < 1, else RangeError. Source: definition.
 * Example: poissonSignalCount(2, 0.00135) = 8.
 */
export function poissonSignalCount(mean: number, bound: number): number {
  checkMean(mean);
  return smallestCount(mean + 4 * Math.sqrt(mean) + 4, bound, (count) => poissonAtLeast(count, mean) < bound);
}
