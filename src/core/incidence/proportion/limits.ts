import {
  betaTerm,
  incompleteBeta,
  incompleteBetaInverse,
  normalQuantile,
  solveTail,
  type Share,
} from "../../distribution/index.ts";
import { checkEvents, oneSide, type Limits } from "../count/limits.ts";

export const PROPORTION_METHODS = ["exact", "mid-P", "Wilson", "Jeffreys"] as const;
export type ProportionMethod = (typeof PROPORTION_METHODS)[number];

/**
 * Two-sided limits of a proportion.
 *   exact     lower = beta(a/2; x, n-x+1), upper = beta(1 - a/2; x+1, n-x)
 *   mid-P     P(X > x | p) + P(X = x | p)/2 = a/2 and the mirror image
 *   Wilson    (x + z^2/2 -+ z sqrt(x (n-x)/n + z^2/4)) / (n + z^2)
 *   Jeffreys  beta(a/2; x + 1/2, n-x + 1/2) and its upper fellow; 0 at no event and 1 at all
 * Units: share of one. Holds: 0 <= x <= n whole, n >= 1, 0 < level < 1, else RangeError.
 * Source: Clopper and Pearson 1934 (exact); Wilson 1927; Newcombe 1998, Stat Med 17:857 (from memory).
 * Example: proportionLimits(81, 263, 0.95, "Wilson") = 0.255289 to 0.366210.
 */
export function proportionLimits(events: number, number: number, level: number, method: ProportionMethod): Limits {
  checkShare(events, number);
  const side = oneSide(level);
  return BY_METHOD[method](events, number, side);
}

const ends = ({ lower, upper }: ShareLimits): Limits => ({ lower: lower.share, upper: upper.share });

const BY_METHOD: Readonly<Record<ProportionMethod, (events: number, number: number, side: number) => Limits>> = {
  exact: (events, number, side) => ends(exactShares(events, number, side)),
  "mid-P": (events, number, side) => ends(midPShares(events, number, side)),
  Wilson: (events, number, side) => {
    const z = -normalQuantile(side);
    const half = z * Math.sqrt((events * (number - events)) / number + (z * z) / 4);
    const middle = events + (z * z) / 2;
    return {
      lower: events === 0 ? 0 : (middle - half) / (number + z * z),
      upper: events === number ? 1 : (middle + half) / (number + z * z),
    };
  },
  Jeffreys: (events, number, side) => {
    const [a, b] = [events + 0.5, number - events + 0.5];
    return {
      lower: events === 0 ? 0 : incompleteBetaInverse(a, b, "lower", side).share,
      upper: events === number ? 1 : incompleteBetaInverse(a, b, "upper", side).share,
    };
  },
};

/**
 * Limits of the difference of two independent proportions, by the hybrid of their score limits.
 *   d -+ sqrt of the squared distances of the two proportions to their own Wilson limits
 * Units: share of one, first less second. Holds: as `proportionLimits`.
 * Source: Newcombe 1998, Stat Med 17:873, method 10 (from memory). Example: 56/70 - 48/80: 0.2 (0.052431 to 0.333873).
 */
export function proportionDifference(
  first: { readonly events: number; readonly number: number },
  second: { readonly events: number; readonly number: number },
  level: number,
): Limits & { readonly difference: number } {
  const [p, q] = [first.events / first.number, second.events / second.number];
  const a = proportionLimits(first.events, first.number, level, "Wilson");
  const b = proportionLimits(second.events, second.number, level, "Wilson");
  return {
    difference: p - q,
    lower: p - q - Math.hypot(p - a.lower, b.upper - q),
    upper: p - q + Math.hypot(a.upper - p, q - b.lower),
  };
}

const NONE: Share = { share: 0, rest: 1, odds: 0 };
const ALL: Share = { share: 1, rest: 0, odds: Infinity };

export interface ShareLimits {
  readonly lower: Share;
  readonly upper: Share;
}

/** Clopper-Pearson ends with their odds, which a ratio of rates needs to full precision. */
export function exactShares(events: number, number: number, side: number): ShareLimits {
  return {
    lower: events === 0 ? NONE : incompleteBetaInverse(events, number - events + 1, "lower", side),
    upper: events === number ? ALL : incompleteBetaInverse(events + 1, number - events, "upper", side),
  };
}

/** Mid-P ends: half the mass of the count seen belongs to each tail. */
export function midPShares(events: number, number: number, side: number): ShareLimits {
  const exact = exactShares(events, number, side);
  return {
    lower: events === 0 ? NONE : midPEnd(events, number, side, "lower", exact.lower.odds),
    upper: events === number ? ALL : midPEnd(events, number, side, "upper", exact.upper.odds),
  };
}

function midPEnd(events: number, number: number, target: number, side: "lower" | "upper", start: number): Share {
  const shareAt = (odds: number): Share => ({ share: odds / (1 + odds), rest: 1 / (1 + odds), odds });
  const odds = solveTail(
    (at) => {
      const { share, rest } = shareAt(at);
      const tail = (a: number, b: number) => {
        if (a === 0) return side === "lower" ? 1 : 0;
        if (b === 0) return side === "lower" ? 0 : 1;
        return incompleteBeta(a, b, share, rest)[side];
      };
      const slope = (a: number, b: number) => (a === 0 || b === 0 ? 0 : betaTerm(a, b, share, rest));
      return {
        tail: (tail(events, number - events + 1) + tail(events + 1, number - events)) / 2,
        slope: (slope(events, number - events + 1) + slope(events + 1, number - events)) / 2,
      };
    },
    target,
    start,
    side === "lower",
  );
  return shareAt(odds);
}

function checkShare(events: number, number: number): void {
  checkEvents(events);
  if (!(Number.isInteger(number) && number >= 1 && events <= number))
    throw new RangeError(`There are ${events} of ${number}; the whole must be at least one and not below its part.`);
}
