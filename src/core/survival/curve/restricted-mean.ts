import type { SurvivalCurve } from "./kaplan-meier.ts";

export interface RestrictedMean {
  readonly mean: number;
  readonly standardError: number;
}

/**
 * Mean event-free time up to a horizon: the area under the curve from 0 to tau.
 *   variance = sum over u < tau of A(u)^2 d / (n (n - d)), A(u) the area from u to tau; nothing where n = d
 * Holds: tau fixed beforehand and no later than the last time followed in any group compared; tau > 0, else RangeError.
 * Source: Irwin JO 1949, J Hyg 47:188; Klein JP, Moeschberger ML 2003, 4.5.
 * Example: Freireich, control, 30 weeks: 8.66667 (SE 1.37739).
 */
export function restrictedMean(curve: SurvivalCurve, horizon: number): RestrictedMean {
  if (!(horizon > 0 && horizon < Infinity)) {
    throw new RangeError(`The horizon is ${horizon}; give a finite time above zero.`);
  }
  let area = 0;
  let variance = 0;
  let later = horizon;
  // from the back, so that the area still to come is at hand at each event
  for (let k = curve.time.length - 1; k >= 0; k -= 1) {
    const time = curve.time[k] as number;
    if (time >= horizon) continue;
    area += (curve.survival[k] as number) * (later - time);
    later = time;
    const n = curve.atRisk[k] as number;
    const d = curve.events[k] as number;
    if (n > d) variance += (area * area * d) / (n * (n - d));
  }
  return { mean: area + later, standardError: Math.sqrt(variance) };
}
