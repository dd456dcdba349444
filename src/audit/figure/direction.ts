import { rateRatio } from "../../core/incidence/index.ts";
import { day } from "../../core/quantity/index.ts";
import type { Measure } from "../measure/index.ts";
import type { Figure } from "./figure.ts";

/** Now against before: told apart only when the exact interval of the ratio leaves one out. */
export type Direction = "higher" | "lower" | "cannot tell";

/**
 * Whether one rate stands apart from another: their ratio's exact interval lies on one side of one.
 * Units: none. Holds: event measures with days on both sides, else undefined; no event on either side cannot be told.
 * Source: exact conditional binomial limits, as `rateRatio`.
 * Example: 41 in 28,010 against 15 in 19,017: 1.01 to 3.61, higher; 40 against the same: 0.98 to 3.53, cannot tell.
 */
export function directionOf(
  now: Pick<Figure, "numerator" | "denominator">,
  before: Pick<Figure, "numerator" | "denominator">,
  measure: Measure,
  level: number,
): Direction | undefined {
  if (measure.numerator.count !== "events" || !now.denominator || !before.denominator) return undefined;
  if (now.numerator + before.numerator === 0) return "cannot tell";
  const side = ({ numerator, denominator }: typeof now) => ({
    events: numerator,
    days: day(denominator as number),
    clock: measure.clock,
  });
  const ratio = rateRatio(side(now), side(before), level, "exact");
  if (typeof ratio === "string") return "cannot tell";
  if (ratio.lower > 1) return "higher";
  return ratio.upper < 1 ? "lower" : "cannot tell";
}
