import { incompleteBeta } from "../special/index.ts";
import { checkCount, smallestCount } from "./count.ts";

/**
 * Chance of k failures or fewer before the r-th success: the sum of r geometric gaps.
 *   P(X <= k) = I_p(r, k + 1)
 * Holds: k whole, r >= 0.02, 0 < p <= 1, else RangeError; relative error as `incompleteBeta`.
 * Source: Abramowitz and Stegun 1964, 26.5.26. Example: negativeBinomialAtMost(2, 1, 0.5) = 0.875.
 */
export function negativeBinomialAtMost(count: number, size: number, chance: number): number {
  checkCount(count);
  if (!(chance > 0 && chance <= 1))
    throw new RangeError(`The chance is ${chance}; it must be above zero, at most one.`);
  return count < 0 ? 0 : incompleteBeta(size, count + 1, chance, 1 - chance).lower;
}

/**
 * Chance of k failures or more before the r-th success, r not always whole.
 *   P(X >= k) = 1 - I_p(r, k)
 * Holds: as `negativeBinomialAtMost`. Source: Abramowitz and Stegun 1964, 26.5.26.
 * Example: negativeBinomialAtLeast(3, 1, 0.5) = 0.125.
 */
export function negativeBinomialAtLeast(count: number, size: number, chance: number): number {
  checkCount(count);
  if (!(chance > 0 && chance <= 1))
    throw new RangeError(`The chance is ${chance}; it must be above zero, at most one.`);
  return count <= 0 ? 1 : incompleteBeta(size, count, chance, 1 - chance).upper;
}

/**
 * The smallest count of failures before the r-th success that is reached or undercut with a given chance.
 *   smallest k with P(X <= k) >= p
 * Holds: as `negativeBinomialAtMost`, 0 < p < 1, else RangeError. Source: definition.
 * Example: negativeBinomialQuantile(0.5, 1, 0.0193482688) = 35.
 */
export function negativeBinomialQuantile(bound: number, size: number, chance: number): number {
  return smallestCount(size / chance, bound, (count) => negativeBinomialAtMost(count, size, chance) >= bound);
}
