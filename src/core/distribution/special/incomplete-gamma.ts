import { gammaFunction, logGammaOnePlus } from "./log-gamma.ts";
import { poissonTerm } from "./poisson-term.ts";

/** The two tails of a distribution at one point; they add to one, and each keeps its own relative precision. */
export interface Tails {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Both regularized incomplete gamma functions.
 *   P(a, x) = integral 0..x of t^(a-1) e^-t dt / Gamma(a)      Q = 1 - P
 * Below x = a + 1 the power series of P, above it the continued fraction of Q; both cost about 8 sqrt(a) steps.
 * Holds: 0 < a <= 1e6, x >= 0, else RangeError; relative error of each tail below 1e-13, or 8 units in the last place
 * times the condition number x P'/P where that is larger, down to tails of 1e-300.
 * Source: Abramowitz and Stegun 1964, 6.5.29 (series), 6.5.31 (fraction). Example: a 3, x 2: P 0.3233236.
 */
export function incompleteGamma(a: number, x: number): Tails {
  if (!(a > 0 && a < Infinity)) throw new RangeError(`The shape is ${a}; it must be above zero and finite.`);
  if (!(x >= 0)) throw new RangeError(`The incomplete gamma was asked at ${x}; it must be zero or more.`);
  if (x === 0) return { lower: 0, upper: 1 };
  if (a < 1 && x < 1.5) return smallShape(a, x);
  if (x < a + 1) {
    const lower = poissonTerm(a, x) * lowerSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const term = poissonTerm(a, x);
  const upper = term === 0 ? 0 : term * a * upperFraction(a, x);
  return { lower: 1 - upper, upper };
}

/** 1 + x/(a+1) + x^2/((a+1)(a+2)) + ...: all positive, so nothing cancels. */
function lowerSeries(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; term > sum * 1e-17; n += 1) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** 1/(x+1-a - 1(1-a)/(x+3-a - 2(2-a)/(x+5-a - ...))) by Lentz's forward method. */
function upperFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = Infinity;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < 1e7; n += 1) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (numerator * d + b);
    c = b + numerator / c;
    const change = c * d;
    value *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return value;
}

/**
 * A shape under one near zero, where P comes close to one and Q must not be one less P.
 *   P = x^a / Gamma(a+1) (1 + a sum over n >= 1 of (-x)^n / ((a+n) n!))
 */
function smallShape(a: number, x: number): Tails {
  let term = 1;
  let sum = 0;
  for (let n = 1; n < 60; n += 1) {
    term *= -x / n;
    sum += term / (a + n);
  }
  const logGamma1 = a <= 0.5 ? logGammaOnePlus(a) : Math.log(gammaFunction(a + 1));
  const front = x ** a / gammaFunction(a + 1);
  const upper = -Math.expm1(a * Math.log(x) - logGamma1) - front * a * sum;
  return { lower: front * (1 + a * sum), upper };
}
