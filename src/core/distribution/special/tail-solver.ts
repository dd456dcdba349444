import { normalQuantile } from "../normal.ts";
import { betaTerm, incompleteBeta } from "./incomplete-beta.ts";
import { incompleteGamma, type Tails } from "./incomplete-gamma.ts";
import { gammaFunction } from "./log-gamma.ts";
import { poissonTerm } from "./poisson-term.ts";

export type TailName = keyof Tails;

/** A tail at x, and how fast it changes with ln x (its absolute slope). */
export interface TailAt {
  readonly tail: number;
  readonly slope: number;
}

/**
 * Where a monotone tail on x > 0 takes a given value.
 *   Newton on ln(tail) in ln x, kept inside a bracket
 * The log of a tail whose log-density in ln x is concave is itself concave, so Newton comes in from one side and cannot
 * cycle; the bracket is for a poor start.
 * Holds: target above zero and below one; relative error of x about 1e-15 plus the tail's own error over its slope.
 * Source: Newton's method; log-concavity of tails, Bagnoli and Bergstrom 2005, Econ Theory 26:445 (from memory).
 */
export function solveTail(at: (x: number) => TailAt, target: number, start: number, rising: boolean): number {
  let low = 0;
  let high = Infinity;
  let x = start > 0 && start < Infinity ? start : 1;
  let before = Infinity;
  for (let turn = 0; turn < 400; turn += 1) {
    const { tail, slope } = at(x);
    if (tail === target) return x;
    if (tail > target === rising) high = x;
    else low = x;
    const step = (Math.log(target / tail) * tail) / slope;
    const size = Math.abs(step);
    let next = x * Math.exp(rising ? step : -step);
    const inside = next > low && next < high;
    if (!inside) {
      if (size < 1e-14) return next;
      next =
        high === Infinity
          ? x > 4
            ? x * x
            : x * 4
          : low === 0
            ? x < 0.25
              ? x * x
              : x / 4
            : Math.sqrt(low) * Math.sqrt(high);
      if (next === 0 || next === Infinity) return next;
    } else if (size < 2e-16 || (size >= before && size < 1e-10)) return next;
    before = inside ? size : Infinity;
    x = next;
  }
  return x;
}

/**
 * The point at which one tail of the regularized incomplete gamma function takes a given value.
 *   P(a, x) = p ("lower") or Q(a, x) = p ("upper"); the smaller of the two tails is the one solved
 * Holds: 0 < a <= 1e6, 1e-300 <= p < 1 (0 and 1 give the ends), else RangeError; relative error below 1e-13, or 8 units in
 * the last place times the condition number p / (x P') where that is larger.
 * Source: inverse of `incompleteGamma`; start by Wilson and Hilferty 1931, Proc Natl Acad Sci 17:684 (from memory).
 * Example: incompleteGammaInverse(10, "lower", 0.025) = 4.795389.
 */
export function incompleteGammaInverse(a: number, side: TailName, p: number): number {
  checkTail(p);
  if (p === 0 || p === 1) return (p === 0) === (side === "lower") ? 0 : Infinity;
  if (p > 0.5) return incompleteGammaInverse(a, side === "lower" ? "upper" : "lower", 1 - p);
  const lower = side === "lower";
  const z = normalQuantile(p) * (lower ? 1 : -1);
  const cube = a * Math.max(0, 1 - 1 / (9 * a) + z / (3 * Math.sqrt(a))) ** 3;
  const nearZero = lower && a < 100 ? Math.exp(Math.log(p * gammaFunction(a + 1)) / a) : 0;
  const start = Math.max(cube, nearZero);
  return solveTail((x) => ({ tail: incompleteGamma(a, x)[side], slope: a * poissonTerm(a, x) }), p, start, lower);
}

/** A share with its complement and its odds: beside one, only the complement has digits. */
export interface Share {
  readonly share: number;
  readonly rest: number;
  readonly odds: number;
}

/**
 * The point at which one tail of the regularized incomplete beta function takes a given value.
 *   I_x(a, b) = p ("lower") or 1 - I_x(a, b) = p ("upper"), solved for the odds x / (1 - x)
 * Holds: 0.02 <= a, b <= 1e6, 1e-300 <= p < 1 (0 and 1 give the ends), else RangeError; relative error below 1e-13, or
 * 8 units in the last place times the condition number p / (x I') where that is larger.
 * Source: inverse of `incompleteBeta`. Example: incompleteBetaInverse(2, 3, "lower", 0.5248).share = 0.4.
 */
export function incompleteBetaInverse(a: number, b: number, side: TailName, p: number): Share {
  checkTail(p);
  if (p > 0.5) return incompleteBetaInverse(a, b, side === "lower" ? "upper" : "lower", 1 - p);
  const lower = side === "lower";
  if (p === 0) return shareOf(lower ? 0 : Infinity);
  const z = normalQuantile(p) * (lower ? 1 : -1);
  const start = (a / b) * Math.exp(z * Math.sqrt(1 / a + 1 / b));
  const odds = solveTail(
    (odds) => {
      const { share, rest } = shareOf(odds);
      return { tail: incompleteBeta(a, b, share, rest)[side], slope: betaTerm(a, b, share, rest) };
    },
    p,
    start,
    lower,
  );
  return shareOf(odds);
}

function shareOf(odds: number): Share {
  if (odds === Infinity) return { share: 1, rest: 0, odds };
  return { share: odds / (1 + odds), rest: 1 / (1 + odds), odds };
}

function checkTail(p: number): void {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A tail of ${p} was asked for; it must be from zero to one.`);
}
