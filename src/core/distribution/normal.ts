/**
 * Standard normal lower tail, P(Z <= z).
 *   Phi(z) = erfc(-z / sqrt 2) / 2, by series near zero and a continued fraction in the tails
 * Holds: every finite z; relative error below 1e-13 for z down to -37.
 * Source: Abramowitz M, Stegun IA 1964, 7.1.5 (series) and 7.1.14 (continued fraction).
 * Example: normalLowerTail(-1.96) = 0.02499790.
 */
export function normalLowerTail(z: number): number {
  if (Number.isNaN(z)) return Number.NaN;
  return z > 0 ? 1 - upperTailOfPositive(z) : upperTailOfPositive(-z);
}

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** Where the series and the continued fraction cost about the same for full precision. */
const SERIES_BELOW = 2.5;

function upperTailOfPositive(z: number): number {
  if (z < SERIES_BELOW) {
    // Phi(z) - 1/2 = density(z) * (z + z^3/3 + z^5/15 + ...): all terms positive, so nothing cancels
    let term = z;
    let sum = z;
    for (let n = 3; term > sum * 1e-17; n += 2) {
      term *= (z * z) / n;
      sum += term;
    }
    return 0.5 - normalDensity(z) * sum;
  }
  // Mills ratio 1/(z + 1/(z + 2/(z + 3/(z + ...)))), from the back; 120 levels are ample from 2.5 up
  let tail = z;
  for (let level = 120; level >= 1; level -= 1) tail = z + level / tail;
  return normalDensity(z) / tail;
}

/**
 * The z below which a given share of a standard normal lies.
 * Found by Newton steps on `normalLowerTail` from a coarse start, so it cannot disagree with it.
 * Holds: 1e-300 <= p < 1. Source for the start: Abramowitz and Stegun 1964, 26.2.23.
 * Example: normalQuantile(0.975) = 1.959964.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) return p === 0 ? -Infinity : p === 1 ? Infinity : Number.NaN;
  if (p > 0.5) return -normalQuantile(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  let z = -(
    t -
    (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3)
  );
  for (let step = 0; step < 8; step += 1) {
    const miss = (normalLowerTail(z) - p) / normalDensity(z);
    const halley = miss / (1 + (z * miss) / 2); // curvature of the normal: -z times its slope
    z -= halley;
    if (Math.abs(halley) < 1e-15 * Math.abs(z)) break;
  }
  return z;
}
