import { incompleteBeta, poissonTerm } from "../special/index.ts";
import { checkCount } from "./count.ts";

function check(count: number, trials: number, chance: number): void {
  checkCount(count);
  if (!(Number.isInteger(trials) && trials >= 0))
    throw new RangeError(`There are ${trials} trials; the number must be whole and not below zero.`);
  if (!(chance >= 0 && chance <= 1)) throw new RangeError(`The chance is ${chance}; it must be from zero to one.`);
}

/**
 * Chance of exactly k successes in n trials.
 *   P(X = k) = C(n, k) p^k (1 - p)^(n - k)
 * Holds: k, n whole, 0 <= p <= 1, else RangeError; relative error as `incompleteBeta`. Source: Loader 2000 (from memory).
 * Example: binomialChance(3, 10, 0.2) = 0.2013266.
 */
export function binomialChance(count: number, trials: number, chance: number): number {
  check(count, trials, chance);
  if (count < 0 || count > trials) return 0;
  return (
    (poissonTerm(count, trials * chance) * poissonTerm(trials - count, trials * (1 - chance))) /
    poissonTerm(trials, trials)
  );
}

/**
 * Chance of k successes or fewer in n trials.
 *   P(X <= k) = 1 - I_p(k + 1, n - k)
 * Holds: k, n whole, 0 <= p <= 1, else RangeError; relative error as `incompleteBeta`.
 * Source: Abramowitz and Stegun 1964, 26.5.24. Example: binomialAtMost(3, 10, 0.2) = 0.8791261.
 */
export function binomialAtMost(count: number, trials: number, chance: number): number {
  check(count, trials, chance);
  if (count < 0) return 0;
  return count >= trials ? 1 : incompleteBeta(count + 1, trials - count, chance, 1 - chance).upper;
}

/**
 * Chance of k successes or more in n trials.
 *   P(X >= k) = I_p(k, n - k + 1)
 * Holds: k, n whole, 0 <= p <= 1, else RangeError; relative error as `incompleteBeta`.
 * Source: Abramowitz and Stegun 1964, 26.5.24. Example: binomialAtLeast(3, 10, 0.2) = 0.3222005.
 */
export function binomialAtLeast(count: number, trials: number, chance: number): number {
  check(count, trials, chance);
  if (count <= 0) return 1;
  return count > trials ? 0 : incompleteBeta(count, trials - count + 1, chance, 1 - chance).lower;
}
