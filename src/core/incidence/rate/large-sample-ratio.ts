import { normalQuantile } from "../../distribution/index.ts";
import { oneSide, type Limits } from "../count/limits.ts";
import { checkPair, type EventsInDays } from "./rate.ts";

export interface LargeSampleRatio extends Limits {
  readonly ratio: number;
  /** Signed root of the score test: (x1 - n p) / sqrt(n p (1 - p)), p the first's share of the days. */
  readonly chi: number;
}

/**
 * Ratio of two rates with limits by the normal approximation, to be held beside a printed one; `rateRatio` is the one to use.
 *   ln R -+ z sqrt(1 / x1 + 1 / x2)
 * Units: none. Holds: some twenty events on either side, below which the limits are too narrow; same clock, days above zero,
 * whole counts, else RangeError. Source: Rothman and Greenland, Modern Epidemiology, ch. 14 (from memory).
 * Example: 41 in 28,010 against 15 in 19,017: 1.855759 (1.027226 to 3.352563), chi 2.081776.
 */
export function largeSampleRatio<Clock extends string>(
  first: EventsInDays<Clock>,
  second: EventsInDays<Clock>,
  level: number,
): LargeSampleRatio | "no events on one side" {
  checkPair(first, second);
  if (first.events === 0 || second.events === 0) return "no events on one side";
  const ratio = (first.events / second.events) * (second.days / first.days);
  const factor = Math.exp(-normalQuantile(oneSide(level)) * Math.sqrt(1 / first.events + 1 / second.events));
  const events = first.events + second.events;
  const share = first.days / (first.days + second.days);
  return {
    ratio,
    lower: ratio / factor,
    upper: ratio * factor,
    chi: (first.events - events * share) / Math.sqrt(events * share * (1 - share)),
  };
}
