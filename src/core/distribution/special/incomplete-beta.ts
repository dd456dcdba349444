import type { Tails } from "./incomplete-gamma.ts";
import { poissonTerm } from "./poisson-term.ts";

/**
 * Both regularized incomplete beta functions, from a point and its distance to one.
 *   I_x(a, b) = integral 0..x of t^(a-1) (1-t)^(b-1) dt / B(a, b)      y = 1 - x
 * Both x and y are asked for, since a point beside one cannot be told from one by x alone.
 * Holds: 0.02 <= a, b <= 1e6, x and y not below zero, else RangeError; relative error of each tail below 1e-13, or 8 units
 * in the last place times the condition number x I'/I where that is larger, down to tails of 1e-300.
 * Source: DiDonato and Morris 1992, ACM Trans Math Softw 18:360, BFRAC; the factor in front after Loader 2000 (from
 * memory).
 * Example: a 2, b 3, x 0.4: I 0.5248.
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): Tails {
  if (!(a > 0 && b > 0 && a + b < Infinity))
    throw new RangeError(`The shapes are ${a} and ${b}; both must be above zero and finite.`);
  if (!(x >= 0 && y >= 0)) throw new RangeError(`The incomplete beta was asked at ${x}; it must be from zero to one.`);
  if (x === 0) return { lower: 0, upper: 1 };
  if (y === 0) return { lower: 1, upper: 0 };
  if (x * (a + b + 2) > a + 1) {
    const { lower, upper } = belowTheMiddle(b, a, y, x);
    return { lower: upper, upper: lower };
  }
  return belowTheMiddle(a, b, x, y);
}

function belowTheMiddle(a: number, b: number, x: number, y: number): Tails {
  const front = betaTerm(a, b, x, y);
  const lower = front === 0 ? 0 : front * fraction(a, b, x, y);
  return { lower, upper: 1 - lower };
}

/** x^a y^b / B(a, b), as a product of Poisson terms so that large exponents never meet: the density times x y. */
export function betaTerm(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  return ((poissonTerm(a, n * x) * poissonTerm(b, n * y)) / poissonTerm(n, n)) * ((a / n) * b);
}

/**
 * The continued fraction of DiDonato and Morris, the even part of Abramowitz and Stegun 26.5.8: I = x^a y^b / B(a, b) x this.
 * Its first term holds 1 + a - (a + b) x = 1 + (a + b) y - b, taken from whichever of x and y is the smaller, since
 * beside one the other has lost the digits.
 */
function fraction(a: number, b: number, x: number, y: number): number {
  const first = 1 + (x <= y ? a - (a + b) * x : (a + b) * y - b);
  let value = (a + 1) / (a * first);
  let [aboveBefore, above] = [0, value];
  let [belowBefore, below] = [1 / ((first * a) / (a + 1)), 1];
  for (let n = 1; n < 1e7; n += 1) {
    const s = a + 2 * n - 1;
    const w = n * (b - n) * x;
    const p = 1 + (n - 1) / a;
    const alpha = p * (p + b / a) * (a / s) ** 2 * (w * x);
    const beta = n + w / s + ((n + a) / (a + 1 + 2 * n)) * (first + n * (1 + y));
    const nextAbove = alpha * aboveBefore + beta * above;
    const nextBelow = alpha * belowBefore + beta * below;
    const next = nextAbove / nextBelow;
    if (Math.abs(next - value) <= 1e-16 * Math.abs(next)) return next;
    value = next;
    // scaled so that the last denominator is one: neither overflows
    [aboveBefore, above] = [above / nextBelow, next];
    [belowBefore, below] = [below / nextBelow, 1];
  }
  return value;
}
