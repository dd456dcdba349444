import { normalQuantile, poissonAtLeast, poissonSignalCount } from "../../distribution/index.ts";
import { checkEvents, countLimits, oneSide, oneSidedUpper } from "../count/limits.ts";

/** What to print for a count: the house sets the two cuts, since they are a custom and no law. */
export type FigureForm = "upper limit only" | "count only, interval first" | "estimate with interval";

/**
 * Which form a rate may take, by its number of events.
 *   none: upper limit only; fewer than `fewestForEstimate`: the count, interval first; else the estimate
 * Holds: whole count, else RangeError. Source: common practice, no source. Example: 3 events, cut 5: count only.
 */
export function figureForm(events: number, fewestForEstimate: number): FigureForm {
  checkEvents(events);
  if (events === 0) return "upper limit only";
  return events < fewestForEstimate ? "count only, interval first" : "estimate with interval";
}

/**
 * How far the exact upper limit stands above the estimate.
 *   upper / x
 * Units: none. Holds: one event or more, else RangeError. Source: Garwood 1936. Example: 10 events at 95 %: 1.839036.
 */
export function upperOverEstimate(events: number, level: number): number {
  if (events === 0) throw new RangeError("There are no events, so there is no estimate to compare a limit with.");
  return countLimits(events, level, "exact").upper / events;
}

/**
 * Largest share still possible after no event in n.
 *   1 - (1 - level)^(1/n), near 3/n at 95 % one-sided
 * Units: share of one. Holds: n >= 1, else RangeError. Source: Hanley and Lippman-Hand 1983, JAMA 249:1743 (from memory).
 * Example: none in 30: 0.0950339.
 */
export function upperShareAfterNone(number: number, level: number): number {
  if (!(number >= 1)) throw new RangeError(`There were ${number}; at least one is needed.`);
  return -Math.expm1(Math.log(2 * oneSide(level)) / number);
}

/**
 * Largest rate still possible after no event, one-sided.
 *   -1000 ln(1 - level) / T
 * Units: per 1000 days. Holds: T above zero. Source: as `upperShareAfterNone`. Example: 500 days at 95 %: 5.991465.
 */
export const upperRateAfterNone = (days: number, level: number): number => (1000 * oneSidedUpper(0, level)) / days;

/**
 * Total events needed to see a ratio between two groups.
 *   D = (z_power + z_(a/2))^2 / (q (1 - q) (ln ratio)^2), q the first group's share of the exposure
 * Units: events in both groups. Holds: ratio above zero and not 1, 0 < share < 1, else RangeError.
 * Source: Schoenfeld 1983, Biometrics 39:499 (from memory). Example: ratio 2, equal arms, power 0.8: 65.35.
 */
export function eventsToCompare(ratio: number, share: number, level: number, power: number): number {
  if (!(ratio > 0 && ratio !== 1 && share > 0 && share < 1 && power > 0 && power < 1))
    throw new RangeError(`A ratio of ${ratio}, a share of ${share} and a power of ${power} leave nothing to plan.`);
  const z = normalQuantile(power) - normalQuantile(oneSide(level));
  return z ** 2 / (share * (1 - share) * Math.log(ratio) ** 2);
}

/**
 * Whether a unit could be seen to differ from a benchmark at all.
 *   first count with P(X >= x | E) < size; its true size; its power when the rate is `ratio` times as high
 * Units: events and chances. Holds: E > 0, 0 < size < 1, else RangeError. Source: exact Poisson.
 * Example: E 5, one-sided 0.025, doubling: from 11 on, true size 0.0137, power 0.4170.
 */
export function powerAgainstBenchmark(
  expected: number,
  size: number,
  ratio: number,
): { readonly signalFrom: number; readonly trueSize: number; readonly power: number } {
  const signalFrom = poissonSignalCount(expected, size);
  return {
    signalFrom,
    trueSize: poissonAtLeast(signalFrom, expected),
    power: poissonAtLeast(signalFrom, expected * ratio),
  };
}
