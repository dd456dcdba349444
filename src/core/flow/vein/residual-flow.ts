import {
  CENTRED_BELOW,
  eccentricAnnulus,
  minusLog,
  requireOffset,
  type EccentricAnnulus,
} from "./eccentric-annulus.ts";
import { trigamma } from "./trigamma.ts";

/**
 * Flow of a vein that holds a catheter, as a share of the empty vein's at the same pressure gradient.
 *   centred    phi = 1 - k^4 - (1 - k^2)^2 / ln(1/k)
 *   between    phi = 1 - k^4 - D/w - 2 D SUM(n>=1) n exp(-n s) / sinh(n w),   s = alpha + beta
 *   touching   phi = 1 - k^4 - 4 k^2 psi1(1 / (1 - k)),   psi1 = trigamma
 *   k catheter-to-vein ratio; D, w, alpha, beta as in `eccentricAnnulus`
 * Near the wall the series is summed by Euler and Maclaurin: D/w cancels, the integral is a trigamma, and the
 * touching form is its limit, so the cost does not grow.
 * Holds: rigid round vein, steady flow of a Newtonian fluid. 0 <= k < 1, 0 <= offset <= 1, else RangeError.
 * Relative error below 1e-10 for k from 0.02 to 0.97 (measured in docs/validation.md), below 3e-8 up to 1.
 * Source: Piercy NAV, Hooper MS, Winny HF 1933, Phil Mag 15:647 (from memory); touching form derived here.
 * Example: k 0.45: 0.1625 centred, 0.3697 touching.
 */
export function residualFlow(ratio: number, offset: number): number {
  if (ratio === 0) {
    requireOffset(offset);
    return 1;
  }
  const annulus = eccentricAnnulus(ratio, offset);
  const gap = 1 - ratio;
  if (gap < THIN_GAP) return (4 / 3) * gap ** 3 * (1 + 1.5 * offset * offset) * (1 - gap / 2);
  const square = ratio * ratio;
  const open = gap * (1 + ratio) * (1 + square);
  if (offset < CENTRED_BELOW) return open - (gap * (1 + ratio)) ** 2 / minusLog(ratio);
  if (annulus.width === 0) return open - 4 * square * trigamma(1 / gap);
  return open - (annulus.inner < SMOOTH_BELOW ? smoothLoss(annulus) : seriesLoss(annulus));
}

/** Below this gap the closed forms lose more to rounding than the thin-gap limit leaves out (1.5e-8 here). */
const THIN_GAP = 3e-4;

/** Beta below which nine Euler-Maclaurin terms reach full precision; above it the series needs at most 60 terms. */
const SMOOTH_BELOW = 0.4;

/** D/w + 2 D SUM, term by term; powers by multiplication, and 1 - r^n by adding, so that nothing cancels. */
function seriesLoss({ discriminant, width, inner }: EccentricAnnulus): number {
  const q = Math.exp(-2 * inner);
  const r = Math.exp(-2 * width);
  const first = -Math.expm1(-2 * width);
  let power = q;
  let decay = r;
  let oneMinus = first;
  let sum = 0;
  for (let n = 1; n < 2000; n += 1) {
    const term = (n * power) / oneMinus;
    sum += term;
    if (term <= 1e-18 * sum) break;
    power *= q;
    oneMinus += decay * first;
    decay *= r;
  }
  return discriminant / width + 4 * discriminant * sum;
}

/** B(2j) / (2j), Bernoulli numbers. */
const BERNOULLI = [1 / 12, -1 / 120, 1 / 252, -1 / 240, 1 / 132, -691 / 32760, 1 / 12, -3617 / 8160, 43867 / 14364];
/** Coefficients of x / sinh x in x^2. */
const OVER_SINH = [
  1,
  -1 / 6,
  7 / 360,
  -31 / 15120,
  127 / 604800,
  -73 / 3421440,
  1414477 / 653837184000,
  -8191 / 37362124800,
  16931177 / 762187345920000,
];

/** The same loss where alpha and beta are small: D psi1(beta/w) / w^2 less the Euler-Maclaurin corrections. */
function smoothLoss({ discriminant, width, outer, inner }: EccentricAnnulus): number {
  const s = outer + inner;
  // powers of -s over factorials
  const decay = [1];
  for (let m = 1; m < 2 * BERNOULLI.length; m += 1) decay.push((-(decay[m - 1] as number) * s) / m);
  let correction = 0;
  for (let j = 1; j <= BERNOULLI.length; j += 1) {
    let coefficient = 0;
    let power = 1;
    for (let i = 0; i < j; i += 1) {
      coefficient += (OVER_SINH[i] as number) * power * (decay[2 * j - 1 - 2 * i] as number);
      power *= width * width;
    }
    correction += (BERNOULLI[j - 1] as number) * coefficient;
  }
  return (discriminant * (trigamma(inner / width) / width - 2 * correction)) / width;
}
