import { baseRate, type Point } from "./u-chart.ts";

export interface EwmaPoint {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
  readonly signal: "high" | "low" | undefined;
}

/**
 * Exponentially weighted moving average of rates, with the exact variance of every point.
 *   z = w u + (1 - w) z', start at the base; v = w^2 base / n + (1 - w)^2 v', start at 0; limits base -+ sigmas sqrt(v)
 * The variance is that of the actual exposures, not the limit it tends to. Units: events per unit of exposure.
 * Holds: 0 < weight <= 1, base above zero, else RangeError; the lower limit is cut at zero. Limits are multiples of a
 * standard deviation, not probabilities. Source: Roberts 1959, Technometrics 1:239; ISO 7870-6 (from memory).
 * Example: weight 1 gives the classical u chart.
 */
export function ewmaChart(
  points: readonly Point[],
  base: number,
  rule: { readonly weight: number; readonly sigmas: number },
): EwmaPoint[] {
  const { weight, sigmas } = rule;
  if (!(weight > 0 && weight <= 1))
    throw new RangeError(`The weight is ${weight}; it must be above zero, at most one.`);
  if (!(base > 0)) throw new RangeError(`The base rate is ${base}; it must be above zero.`);
  baseRate(points); // refuses points without exposure
  let value = base;
  let variance = 0;
  return points.map(({ events, exposure }) => {
    value = (weight * events) / exposure + (1 - weight) * value;
    variance = (weight * weight * base) / exposure + (1 - weight) ** 2 * variance;
    const half = sigmas * Math.sqrt(variance);
    const lower = Math.max(0, base - half);
    return {
      value,
      lower,
      upper: base + half,
      signal: value > base + half ? "high" : value < lower ? "low" : undefined,
    };
  });
}
