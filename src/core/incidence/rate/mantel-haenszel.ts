import { chiSquareTail, normalQuantile } from "../../distribution/index.ts";
import { oneSide, type Limits } from "../count/limits.ts";
import { checkPair, type EventsInDays } from "./rate.ts";

export interface RateStratum<Clock extends string = string> {
  readonly first: EventsInDays<Clock>;
  readonly second: EventsInDays<Clock>;
}

export interface StratifiedRates {
  readonly ratio: Limits & { readonly ratio: number };
  readonly difference: Limits & { readonly perThousand: number; readonly standardErrorPerThousand: number };
  /** One degree of freedom, without continuity correction. */
  readonly chiSquare: number;
  readonly chance: number;
  /** Strata that carry events; the others add nothing to the ratio. */
  readonly strataUsed: number;
}

/**
 * One ratio and one difference of rates over strata, first over second.
 *   R = sum(a N0/N) / sum(b N1/N)      var ln R = sum(M N1 N0/N^2) / (sum(a N0/N) sum(b N1/N))
 *   d = sum((a N0 - b N1)/N) / sum(N1 N0/N)      chi2 = (sum(a - M N1/N))^2 / sum(M N1 N0/N^2)
 *   a, b events and N1, N0 days of first and second; M = a + b; N = N1 + N0
 * Units: ratio none, difference per 1000 days. Holds: one ratio in all strata; large total or many strata. Same clock,
 * else RangeError; "no common events" when one side has none at all.
 * Source: Greenland and Robins 1985, Biometrics 41:55 (from memory). Example: British doctors, 1.424682 (1.154703 to
 * 1.757784).
 */
export function mantelHaenszel<Clock extends string>(
  strata: readonly RateStratum<Clock>[],
  level: number,
): StratifiedRates | "no events on one side" {
  const sums = { over: 0, under: 0, spread: 0, gap: 0, weight: 0, surprise: 0, differenceSpread: 0 };
  for (const { first, second } of strata) {
    checkPair(first, second);
    const all = first.days + second.days;
    const [firstShare, secondShare] = [first.days / all, second.days / all];
    const events = first.events + second.events;
    sums.over += first.events * secondShare;
    sums.under += second.events * firstShare;
    sums.spread += events * firstShare * secondShare;
    sums.surprise += first.events - events * firstShare;
    sums.gap += first.events * secondShare - second.events * firstShare;
    sums.weight += first.days * secondShare;
    sums.differenceSpread += first.events * secondShare ** 2 + second.events * firstShare ** 2;
  }
  if (sums.over === 0 || sums.under === 0) return "no events on one side";
  const z = -normalQuantile(oneSide(level));
  const ratio = sums.over / sums.under;
  const factor = Math.exp(z * Math.sqrt(sums.spread / (sums.over * sums.under)));
  const difference = (1000 * sums.gap) / sums.weight;
  const error = (1000 * Math.sqrt(sums.differenceSpread)) / sums.weight;
  const chiSquare = sums.surprise ** 2 / sums.spread;
  return {
    ratio: { ratio, lower: ratio / factor, upper: ratio * factor },
    difference: {
      perThousand: difference,
      standardErrorPerThousand: error,
      lower: difference - z * error,
      upper: difference + z * error,
    },
    chiSquare,
    chance: chiSquareTail("upper", chiSquare, 1),
    strataUsed: strata.filter(({ first, second }) => first.events + second.events > 0).length,
  };
}
