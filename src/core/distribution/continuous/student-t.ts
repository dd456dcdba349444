import { incompleteBeta, incompleteBetaInverse, type TailName } from "../special/index.ts";

/**
 * Chance that Student's t is at most (lower) or at least (upper) t.
 *   upper = (1 - I_x(1/2, df/2)) / 2, x = t^2 / (df + t^2), for t >= 0
 * Holds: df >= 1, else RangeError; relative error as `incompleteBeta`.
 * Source: Abramowitz and Stegun 1964, 26.7.1. Example: studentTail("upper", 2.228139, 10) = 0.025.
 */
export function studentTail(side: TailName, t: number, degreesOfFreedom: number): number {
  if (Number.isNaN(t)) throw new RangeError("The t value is not a number; give a number.");
  const outward = side === "upper" ? t : -t;
  // t over root df, not its square, decides which way to divide: the square of a huge t has no digits left
  const ratio = Math.abs(t) / Math.sqrt(degreesOfFreedom);
  const [share, rest] =
    ratio > 1
      ? [1 / (1 + ratio ** -2), ratio ** -2 / (1 + ratio ** -2)]
      : [ratio ** 2 / (1 + ratio ** 2), 1 / (1 + ratio ** 2)];
  const { lower, upper } = incompleteBeta(0.5, degreesOfFreedom / 2, share, rest);
  return outward >= 0 ? upper / 2 : 0.5 + lower / 2;
}

/**
 * The t at which a tail takes a given value.
 *   t = sqrt(df x odds), odds x / (1 - x) where 1 - I_x(1/2, df/2) = 2 p
 * Holds: df >= 1, 0 < p < 1 (0 and 1 give the infinite ends), else RangeError; relative error as `incompleteBetaInverse`.
 * Source: Abramowitz and Stegun 1964, 26.7.1. Example: studentQuantile("upper", 0.025, 10) = 2.228139.
 */
export function studentQuantile(side: TailName, tail: number, degreesOfFreedom: number): number {
  if (tail > 0.5) return -studentQuantile(side, 1 - tail, degreesOfFreedom);
  const { odds } = incompleteBetaInverse(0.5, degreesOfFreedom / 2, "upper", 2 * tail);
  return Math.sqrt(odds) * Math.sqrt(degreesOfFreedom) * (side === "upper" ? 1 : -1);
}
