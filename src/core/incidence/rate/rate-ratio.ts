import { binomialAtLeast, binomialAtMost, binomialChance, normalQuantile } from "../../distribution/index.ts";
import { oneSide, type Limits } from "../count/limits.ts";
import { smallChances } from "../count/small-chances.ts";
import { exactShares, midPShares } from "../proportion/limits.ts";
import { checkPair, type EventsInDays } from "./rate.ts";

export interface RatioSurprise {
  /** Sum of the chances of all splits no more likely than the one seen. */
  readonly twoSidedSmallChances: number;
  /** Twice the smaller one-sided mid-P, at most 1. */
  readonly twoSidedMidP: number;
}

export interface RateRatio extends Limits, RatioSurprise {
  /** Infinite when only the first has events. An upper limit of Infinity reads "not estimable above". */
  readonly ratio: number;
  readonly method: "exact" | "mid-P";
}

/**
 * Ratio of two rates, first over second, given the total number of events.
 *   x1 ~ Binomial(x1 + x2, p), p = R T1 / (R T1 + T2); limits of p go back by R = p / (1 - p) x T2 / T1
 * The point is x1 T2 / (x2 T1), not the median-unbiased one. No event on either side says nothing of a ratio.
 * Units: none. Holds: same clock, days above zero, whole counts, else RangeError.
 * Source: Rothman and Greenland, Modern Epidemiology, ch. 14 (from memory); mid-P as CDC's published macro BINOM, 2014.
 * Example: 17 in 100,025 against 3 in 122,268: 6.926788 (exact 2.003511 to 36.892334).
 */
export function rateRatio<Clock extends string>(
  first: EventsInDays<Clock>,
  second: EventsInDays<Clock>,
  level: number,
  method: "exact" | "mid-P",
): RateRatio | "no events on either side" {
  checkPair(first, second);
  const total = first.events + second.events;
  if (total === 0) return "no events on either side";
  const back = second.days / first.days;
  const ends = (method === "exact" ? exactShares : midPShares)(first.events, total, oneSide(level));
  return {
    ratio: (first.events / second.events) * back,
    lower: ends.lower.odds * back,
    upper: ends.upper.odds * back,
    method,
    ...splitSurprise(first.events, total, first.days / (first.days + second.days)),
  };
}

/** How surprising a split of events between two is, when each event falls to the first with a known chance. */
export function splitSurprise(events: number, total: number, chance: number): RatioSurprise {
  const half = binomialChance(events, total, chance) / 2;
  const above = binomialAtLeast(events + 1, total, chance) + half;
  const below = binomialAtMost(events - 1, total, chance) + half;
  return {
    twoSidedSmallChances: smallChances(events, total * chance, total, {
      chance: (count) => binomialChance(count, total, chance),
      atMost: (count) => binomialAtMost(count, total, chance),
      atLeast: (count) => binomialAtLeast(count, total, chance),
    }),
    twoSidedMidP: Math.min(1, 2 * Math.min(above, below)),
  };
}

/**
 * Difference of two rates with limits by the normal approximation.
 *   d = x1/T1 - x2/T2, variance x1/T1^2 + x2/T2^2
 * Units: events per 1000 days. Holds: about 20 events in all or more; below that the limits are too narrow. Same clock,
 * else RangeError. Source: Rothman and Greenland, ch. 14 (from memory).
 * Example: 41 in 28,010 less 15 in 19,017: 0.675 (0.0749 to 1.275).
 */
export function rateDifference<Clock extends string>(
  first: EventsInDays<Clock>,
  second: EventsInDays<Clock>,
  level: number,
): Limits & { readonly perThousand: number } {
  checkPair(first, second);
  const z = -normalQuantile(oneSide(level));
  const difference = first.events / first.days - second.events / second.days;
  const half = z * Math.sqrt(first.events / first.days ** 2 + second.events / second.days ** 2);
  return { perThousand: 1000 * difference, lower: 1000 * (difference - half), upper: 1000 * (difference + half) };
}
