import { normalLowerTail, normalQuantile } from "../../distribution/index.ts";
import { countAgainstExpected } from "../count/against-expected.ts";
import { checkEvents, countLimits, oneSide, type CountMethod, type Limits } from "../count/limits.ts";
import { exactShares, midPShares } from "../proportion/limits.ts";
import { splitSurprise, type RatioSurprise } from "./rate-ratio.ts";
import { checkDays, type EventsInDays } from "./rate.ts";

export interface ObservedAndExpected {
  readonly observed: number;
  readonly expected: number;
}

export interface StandardisedRatio {
  readonly ratio: number;
  /** Absent when nothing was observed: then there is an upper limit only. */
  readonly lower?: number;
  readonly upper: number;
  readonly method: CountMethod;
  /** Two-sided, doubled one-sided mid-P. */
  readonly chanceMidP: number;
  /** Two-sided by Byar, where the limits are his. */
  readonly chanceByar?: number;
}

/**
 * Events to be expected from reference rates on one's own days.
 *   E = sum over strata of (reference rate per 1000) x days / 1000
 * Units: events. Holds: days above zero, rates zero or more, else RangeError. Source: indirect standardisation.
 * Example: 1850 days at 1.4 and 3120 at 1.1: 6.022.
 */
export function expectedEvents(
  strata: readonly { readonly days: EventsInDays["days"]; readonly referencePerThousand: number }[],
): number {
  return strata.reduce((sum, { days, referencePerThousand }) => {
    checkDays(days);
    if (!(referencePerThousand >= 0))
      throw new RangeError(`The reference rate is ${referencePerThousand}; it must be zero or more.`);
    return sum + (days * referencePerThousand) / 1000;
  }, 0);
}

/**
 * Standardised ratio of observed to expected events, with Poisson limits.
 *   ratio = O / E, limits of O divided by E; p = 2 min(L, 1 - L), L = P(X < O | E) + P(X = O | E)/2
 * Withheld when fewer are expected than `leastExpected`: the ratio then says little but noise. E is taken as known.
 * Units: none. Holds: E > 0, else RangeError. Ratios of two services are not comparable unless their strata are alike.
 * Source: Liddell 1984, J Epidemiol Community Health 38:85; CDC's published macros of 2014 (mid-P).
 * Example: 4 against 3.3: 1.212121 (mid-P 0.385135 to 2.923770), p 0.657071.
 */
export function standardisedRatio(
  { observed, expected }: ObservedAndExpected,
  rule: { readonly level: number; readonly method: CountMethod; readonly leastExpected: number },
): StandardisedRatio | "too few expected" {
  const { twoSidedMidP } = countAgainstExpected(observed, expected);
  if (expected < rule.leastExpected) return "too few expected";
  const { lower, upper } = countLimits(observed, rule.level, rule.method);
  return {
    ratio: observed / expected,
    ...(observed > 0 && { lower: lower / expected }),
    upper: upper / expected,
    method: rule.method,
    chanceMidP: twoSidedMidP,
  };
}

/**
 * Two-sided chance of a large count by Byar's approximation.
 *   chi = sqrt(9 o) |1 - 1/(9 o) - (E/o)^(1/3)|, o = O where O > E, else O + 1; p = 2 (1 - Phi(chi))
 * Units: chance. Holds: whole count, E > 0, else RangeError; meant for more than a hundred, close from ten on.
 * Source: Breslow and Day 1987, vol. II, eq. 2.12; CDC's published macro of 2014 (from memory).
 * Example: 120 against 97.5: 0.030218.
 */
export function byarChance({ observed, expected }: ObservedAndExpected): number {
  checkEvents(observed);
  if (!(expected > 0)) throw new RangeError(`The expected number is ${expected}; it must be above zero.`);
  const count = observed > expected ? observed : observed + 1;
  const chi = Math.sqrt(9 * count) * (1 - 1 / (9 * count) - Math.cbrt(expected / count));
  return Math.min(1, 2 * normalLowerTail(-Math.abs(chi)));
}

/**
 * A standardised ratio as the surveillance standard prints it: mid-P up to so many observed and expected, Byar above.
 *   limits and p by mid-P where both numbers are at most `midPUpTo`, else by Byar
 * Units: none. Holds: as `standardisedRatio`. Source: CDC's published macro SIRcomp of 2014 (100; 1 expected).
 * Example: 120 against 97.5: 1.230769 (1.020413 to 1.471709), p 0.030218.
 */
export function surveillanceRatio(
  seen: ObservedAndExpected,
  rule: { readonly level: number; readonly leastExpected: number; readonly midPUpTo: number },
): StandardisedRatio | "too few expected" {
  const isSmall = seen.observed <= rule.midPUpTo && seen.expected <= rule.midPUpTo;
  const ratio = standardisedRatio(seen, { ...rule, method: isSmall ? "mid-P" : "Byar" });
  return typeof ratio === "string" || isSmall ? ratio : { ...ratio, chanceByar: byarChance(seen) };
}

/**
 * Limits of a standardised ratio whose reference itself rests on few events.
 *   ln ratio -+ z sqrt(1/O + 1/D), D the events behind the reference rates
 * Units: none. Holds: O and D above zero, else RangeError; a normal approximation, rough below ten of either.
 * Source: delta method. Example: 12 against 10.286 from 40 reference events: 0.612026 to 2.223819.
 */
export function ratioWithDoubtfulReference(
  { observed, expected }: ObservedAndExpected,
  referenceEvents: number,
  level: number,
): Limits {
  if (!(observed > 0 && referenceEvents > 0 && expected > 0))
    throw new RangeError(
      `Observed ${observed}, expected ${expected} and reference ${referenceEvents} must exceed zero.`,
    );
  const factor = Math.exp(-normalQuantile(oneSide(level)) * Math.sqrt(1 / observed + 1 / referenceEvents));
  return { lower: observed / expected / factor, upper: (observed / expected) * factor };
}

/**
 * Ratio of two standardised ratios, first over second, given the total observed.
 *   O1 ~ Binomial(O1 + O2, p), p = R E1 / (R E1 + E2), back by R = p / (1 - p) x E2 / E1
 * Units: none. Holds: both E > 0, whole counts, else RangeError; fair only where the strata of the two are alike.
 * Source: CDC's published macro of 2014 for two ratios. Example: 9 of 5.2 against 14 of 10.1: 1.248626 (0.517914 to
 * 2.889198), p 0.600393.
 */
export function compareStandardisedRatios(
  first: ObservedAndExpected,
  second: ObservedAndExpected,
  level: number,
  method: "exact" | "mid-P",
): (Limits & RatioSurprise & { readonly ratio: number }) | "no events on either side" {
  for (const { observed, expected } of [first, second]) {
    checkEvents(observed);
    if (!(expected > 0)) throw new RangeError(`The expected number is ${expected}; it must be above zero.`);
  }
  const total = first.observed + second.observed;
  if (total === 0) return "no events on either side";
  const back = second.expected / first.expected;
  const ends = (method === "exact" ? exactShares : midPShares)(first.observed, total, oneSide(level));
  return {
    ratio: (first.observed / second.observed) * back,
    lower: ends.lower.odds * back,
    upper: ends.upper.odds * back,
    ...splitSurprise(first.observed, total, first.expected / (first.expected + second.expected)),
  };
}
