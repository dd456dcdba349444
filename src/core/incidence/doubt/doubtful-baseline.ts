import { binomialAtLeast, binomialChance } from "../../distribution/index.ts";
import { checkPair, type EventsInDays } from "../rate/rate.ts";

export interface ClusterSurprise {
  readonly asManyOrMore: number;
  readonly asManyOrMoreMidP: number;
}

/**
 * How surprising a recent cluster is when the baseline rests on few events itself.
 *   given all x + b events, the recent share is Binomial(x + b, T1 / (T1 + T0)) if nothing changed
 *   P(X >= x) by that binomial; as the baseline grows without end it becomes the Poisson P(X >= x | E)
 * No rate is assumed: the doubt about the baseline is inside. Units: chance.
 * Holds: same clock, no shared days, days above zero, else RangeError; events independent, which a shared cause breaks.
 * Source: Przyborowski and Wilenski 1940, Biometrika 31:313 (from memory). Example: 5 in 90 days after 6 in 730:
 * 0.004157.
 */
export function clusterAgainstBaseline<Clock extends string>(
  recent: EventsInDays<Clock>,
  baseline: EventsInDays<Clock>,
): ClusterSurprise {
  checkPair(recent, baseline);
  const total = recent.events + baseline.events;
  const share = recent.days / (recent.days + baseline.days);
  return {
    asManyOrMore: binomialAtLeast(recent.events, total, share),
    asManyOrMoreMidP:
      binomialAtLeast(recent.events + 1, total, share) + binomialChance(recent.events, total, share) / 2,
  };
}
