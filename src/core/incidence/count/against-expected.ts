import { poissonAtLeast, poissonAtMost, poissonChance } from "../../distribution/index.ts";
import { checkEvents } from "./limits.ts";
import { smallChances } from "./small-chances.ts";

/** Four answers to one question; a report names which one it prints, since they differ. */
export interface CountSurprise {
  /** Sum of the chances of all counts no more likely than the one seen. */
  readonly twoSidedSmallChances: number;
  /** Twice the smaller one-sided mid-P, at most 1. */
  readonly twoSidedMidP: number;
  readonly asManyOrMore: number;
  readonly asManyOrMoreMidP: number;
}

/**
 * How surprising a count is against an expected number taken as known.
 *   one-sided P(X >= x | E); mid-P P(X > x | E) + P(X = x | E)/2; two-sided by small chances or by doubling the mid-P
 * Units: chances. Holds: x whole, zero or more, E > 0, else RangeError. An expected number that itself rests on few
 * events needs `clusterAgainstBaseline`.
 * Source: Cohen and Yang 1994, Stat Med 13:2189 (mid-P); small chances as in R's poisson.test.
 * Example: 7 seen, 4.3215 expected: 0.2175, 0.2194 doubled mid-P, 0.1468 one-sided.
 */
export function countAgainstExpected(events: number, expected: number): CountSurprise {
  checkEvents(events);
  if (!(expected > 0 && expected < Infinity))
    throw new RangeError(`The expected number is ${expected}; it must be above zero and finite.`);
  const half = poissonChance(events, expected) / 2;
  const above = poissonAtLeast(events + 1, expected) + half;
  const below = poissonAtMost(events - 1, expected) + half;
  return {
    twoSidedSmallChances: smallChances(events, expected, Infinity, {
      chance: (count) => poissonChance(count, expected),
      atMost: (count) => poissonAtMost(count, expected),
      atLeast: (count) => poissonAtLeast(count, expected),
    }),
    twoSidedMidP: Math.min(1, 2 * Math.min(above, below)),
    asManyOrMore: poissonAtLeast(events, expected),
    asManyOrMoreMidP: above,
  };
}
