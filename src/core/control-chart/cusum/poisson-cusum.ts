import { cusumPath, type CusumPoint, type CusumRule } from "./path.ts";

/**
 * Reference value of a count CUSUM with equal periods.
 *   k = (m1 - m0) / ln(m1 / m0)
 * Units: events per period. Holds: both means above zero and different, else RangeError.
 * Source: Lucas 1985, Technometrics 27:129 (from memory). Example: cusumReference(1, 2) = 1.442695.
 */
export function cusumReference(inControl: number, outOfControl: number): number {
  if (!(inControl > 0 && outOfControl > 0 && inControl !== outOfControl))
    throw new RangeError(`The means ${inControl} and ${outOfControl} must be above zero and different.`);
  return (outOfControl - inControl) / Math.log(outOfControl / inControl);
}

/**
 * Count CUSUM with equal periods.
 *   S = max(0, S' + x - k)
 * Units: events. Holds: decision above zero, else RangeError. Source: Lucas 1985 (from memory).
 * Example: counts 3, 4 with k 1.5, decision 4: 1.5, then 4 and a signal.
 */
export const countCusum = (counts: readonly number[], reference: number, rule: CusumRule): CusumPoint[] =>
  cusumPath(
    counts.map((count) => count - reference),
    rule,
  );

/** One step of any length: a month, a day, or the exposure since the last event with that event at its end. */
export interface Exposed {
  readonly events: number;
  /** Events to be expected in this step when all is well, base rate times exposure. */
  readonly expected: number;
}

/**
 * Log-likelihood CUSUM of counts with exposure; the one form for months, days and single events.
 *   S = max(0, S' + x ln R - (R - 1) E)
 * Units: natural log of a likelihood ratio. Holds: ratio above zero and not 1, E >= 0, decision above zero, else
 * RangeError. A long step takes its fall before its events: cut the exposure at each event for the exact path.
 * Source: sequential likelihood ratio for Poisson counts. Example: 3 events, 1 expected, R 2: 1.079442.
 */
export function exposureCusum(steps: readonly Exposed[], ratio: number, rule: CusumRule): CusumPoint[] {
  checkRatio(ratio);
  const up = Math.log(ratio);
  return cusumPath(
    steps.map(({ events, expected }) => {
      if (!(expected >= 0)) throw new RangeError(`The expected number is ${expected}; it must be zero or more.`);
      return events * up - (ratio - 1) * expected;
    }),
    rule,
  );
}

export function checkRatio(ratio: number): void {
  if (!(ratio > 0 && ratio !== 1 && ratio < Infinity))
    throw new RangeError(`The ratio to detect is ${ratio}; it must be above zero and not one.`);
}
