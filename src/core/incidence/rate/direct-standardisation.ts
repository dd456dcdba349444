import { chiSquareQuantile } from "../../distribution/index.ts";
import { checkEvents, oneSide, type Limits } from "../count/limits.ts";
import { checkDays, type EventsInDays } from "./rate.ts";

/**
 * Rate standardised to the stratum weights of a chosen population, with gamma limits.
 *   y = sum(w x / T), v = sum(w^2 x / T^2), w the stratum's share of the standard days, m the largest w / T
 *   lower = v/(2y) chi2(a/2; 2 y^2/v)      upper = (v + m^2)/(2 (y + m)) chi2(1 - a/2; 2 (y + m)^2/(v + m^2))
 * Units: per 1000 days. Holds: at least one stratum, weights above zero (their sum is scaled to one), else RangeError.
 * Source: Fay and Feuer 1997, Stat Med 16:791 (from memory). Example: smoking British doctors, pooled years as weights:
 * 4.266704 (3.939810 to 4.614252).
 */
export function standardisedRate<Clock extends string>(
  strata: readonly (EventsInDays<Clock> & { readonly weight: number })[],
  level: number,
): Limits & { readonly perThousand: number } {
  const side = oneSide(level);
  const total = strata.reduce((sum, stratum) => sum + stratum.weight, 0);
  if (!(total > 0)) throw new RangeError(`The weights add to ${total}; they must add to more than zero.`);
  let rate = 0;
  let variance = 0;
  let largest = 0;
  for (const { events, days, weight } of strata) {
    checkEvents(events);
    checkDays(days);
    const perEvent = weight / total / days;
    rate += perEvent * events;
    variance += perEvent * perEvent * events;
    largest = Math.max(largest, perEvent);
  }
  const scaled = (y: number, v: number, tail: "lower" | "upper") =>
    (v / (2 * y)) * chiSquareQuantile(tail, side, (2 * y * y) / v);
  return {
    perThousand: 1000 * rate,
    lower: rate === 0 ? 0 : 1000 * scaled(rate, variance, "lower"),
    upper: 1000 * scaled(rate + largest, variance + largest * largest, "upper"),
  };
}
