import { incompleteBeta, incompleteBetaInverse, type TailName } from "../special/index.ts";

/**
 * Chance that a ratio of two mean squares, F, is at most (lower) or at least (upper) f.
 *   lower = I_x(d1/2, d2/2), x = d1 f / (d2 + d1 f)
 * Holds: d1, d2 >= 1, f >= 0, else RangeError; relative error as `incompleteBeta`.
 * Source: Abramowitz and Stegun 1964, 26.6.2. Example: fRatioTail("upper", 4.964603, 1, 10) = 0.05.
 */
export function fRatioTail(side: TailName, f: number, above: number, below: number): number {
  const odds = (f * above) / below;
  const [share, rest] =
    odds > 1 ? [1 / (1 + 1 / odds), 1 / odds / (1 + 1 / odds)] : [odds / (1 + odds), 1 / (1 + odds)];
  return incompleteBeta(above / 2, below / 2, share, rest)[side];
}

/**
 * The ratio of mean squares at which a tail takes a given value.
 *   f = odds d2 / d1, odds x / (1 - x) where I_x(d1/2, d2/2) = p
 * Holds: d1, d2 >= 1, 0 <= p <= 1, else RangeError; relative error as `incompleteBetaInverse`.
 * Source: Abramowitz and Stegun 1964, 26.6.2. Example: fRatioQuantile("upper", 0.05, 1, 10) = 4.964603.
 */
export function fRatioQuantile(side: TailName, tail: number, above: number, below: number): number {
  return (incompleteBetaInverse(above / 2, below / 2, side, tail).odds * below) / above;
}
