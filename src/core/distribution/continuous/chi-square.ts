import { incompleteGamma, incompleteGammaInverse, type TailName } from "../special/index.ts";

/**
 * Chance that a chi-square variable is at most (lower) or at least (upper) x.
 *   lower = P(df / 2, x / 2)      upper = Q(df / 2, x / 2)
 * Holds: df > 0, x >= 0, else RangeError; relative error as `incompleteGamma`.
 * Source: Abramowitz and Stegun 1964, 26.4.19. Example: chiSquareTail("upper", 3.841459, 1) = 0.05.
 */
export function chiSquareTail(side: TailName, x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2)[side];
}

/**
 * The chi-square at which a tail takes a given value.
 *   x = 2 P^-1(df / 2, p)
 * Holds: df > 0, 0 <= p <= 1, else RangeError; relative error as `incompleteGammaInverse`.
 * Source: Abramowitz and Stegun 1964, 26.4.19. Example: chiSquareQuantile("upper", 0.05, 1) = 3.841459.
 */
export function chiSquareQuantile(side: TailName, tail: number, degreesOfFreedom: number): number {
  return 2 * incompleteGammaInverse(degreesOfFreedom / 2, side, tail);
}
