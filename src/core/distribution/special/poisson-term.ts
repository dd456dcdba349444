import { gammaFunction, stirlingError, STIRLING_FROM } from "./log-gamma.ts";

/**
 * The deviance part of a Poisson term, without cancellation when a and m are near.
 *   d(a, m) = a ln(a/m) + m - a
 * Holds: a > 0, m > 0; relative error a few units in the last place of |a - m| / d.
 * Source: Loader C 2000, "Fast and accurate computation of binomial probabilities", section 3 (from memory).
 * Example: deviance(1, 2) = 0.306853.
 */
function deviance(a: number, m: number): number {
  const gap = a - m;
  if (isFar(a, m)) return a * Math.log(a / m) - gap;
  const v = gap / (a + m);
  const square = v * v;
  let term = 2 * a * v;
  let sum = gap * v;
  for (let j = 3; ; j += 2) {
    term *= square;
    const next = sum + term / j;
    if (next === sum) return sum;
    sum = next;
  }
}

/** Where the difference of a and m is large enough to be taken directly. */
const isFar = (a: number, m: number): boolean => Math.abs(a - m) >= 0.1 * (a + m);

/** Up to here half the powers of the far form stay inside the range of a double for every term above 1e-300. */
const POWERS_UP_TO = 600;

/**
 * Poisson term at a count that need not be whole: the factor before every incomplete gamma and beta.
 *   t(a, m) = m^a e^-m / Gamma(a+1)
 * By Loader's form above 20, so that nothing is lost when a and m are both large; by powers below, so that nothing is
 * lost when m is tiny.
 * Holds: a >= 0, m >= 0. Source: Loader 2000 (from memory). Example: poissonTerm(3, 2) = 0.1804470.
 */
export function poissonTerm(a: number, m: number): number {
  if (m === 0) return a === 0 ? 1 : 0;
  if (m === Infinity) return 0;
  if (a < STIRLING_FROM) {
    const half = Math.exp(-m / 2); // e^-m would lose digits below 1e-308 before the product does
    return ((m ** a * half) / gammaFunction(a + 1)) * half;
  }
  const scale = Math.sqrt(2 * Math.PI * a);
  if (a <= POWERS_UP_TO && isFar(a, m)) {
    // far out the deviance is hundreds and its logarithm costs that many units in the last place; a power does not
    const root = (m / a) ** (a / 2) * Math.exp((a - m) / 2);
    return ((root * Math.exp(-stirlingError(a))) / scale) * root;
  }
  return Math.exp(-stirlingError(a) - deviance(a, m)) / scale;
}
