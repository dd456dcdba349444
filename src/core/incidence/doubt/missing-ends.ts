import type { Day } from "../../quantity/index.ts";
import { checkEvents, countLimits, type CountMethod, type Limits } from "../count/limits.ts";
import { checkDays } from "../rate/rate.ts";

/** What is known and what is not: lines whose end nobody wrote down, and events that may hide behind them. */
export interface PartlyKnown<Clock extends string = string> {
  readonly knownEvents: number;
  /** Events that would be added if every line of unknown end had one. */
  readonly possibleEvents: number;
  /** Days up to the last date each line was known to be in place. */
  readonly fewestDays: Day;
  /** Days if each line of unknown end stayed in to the cut-off. */
  readonly mostDays: Day;
  readonly clock: Clock;
}

export interface RateBounds<Clock extends string = string> {
  /** The rate if no hidden event happened and every line stayed to the cut-off, and the rate in the opposite case. */
  readonly lowestPerThousand: number;
  readonly highestPerThousand: number;
  /** The same with the limits of chance around each: nothing outside can be excluded by this interval's guarantee. */
  readonly outer: Limits;
  readonly clock: Clock;
}

/**
 * The rates between which the truth must lie, whatever the missing ends were.
 *   lowest = 1000 x / T_most      highest = 1000 (x + possible) / T_fewest
 * No assumption about why an end is missing. Units: per 1000 days of the named clock.
 * Holds: fewest days above zero and not above most, whole counts, else RangeError.
 * Source: worst-case bounds, Manski 1989, J Hum Resour 24:343 (from memory).
 * Example: 3 events, 2 possible, 1000 to 1250 days: 2.4 to 5.
 */
export function rateWithMissingEnds<Clock extends string>(
  known: PartlyKnown<Clock>,
  level: number,
  method: CountMethod,
): RateBounds<Clock> {
  checkEvents(known.knownEvents);
  checkEvents(known.possibleEvents);
  checkDays(known.fewestDays);
  checkDays(known.mostDays);
  if (known.fewestDays > known.mostDays)
    throw new RangeError(`The fewest days (${known.fewestDays}) exceed the most (${known.mostDays}); swap them.`);
  const most = known.knownEvents + known.possibleEvents;
  return {
    lowestPerThousand: (1000 * known.knownEvents) / known.mostDays,
    highestPerThousand: (1000 * most) / known.fewestDays,
    outer: {
      lower: (1000 * countLimits(known.knownEvents, level, method).lower) / known.mostDays,
      upper: (1000 * countLimits(most, level, method).upper) / known.fewestDays,
    },
    clock: known.clock,
  };
}

/**
 * The shares between which the truth must lie when some outcomes are unknown.
 *   lowest = x / n      highest = (x + unknown) / n
 * Units: share of one. Holds: whole counts, x + unknown <= n, n >= 1, else RangeError. Source: as `rateWithMissingEnds`.
 * Example: 4 of 50 with 3 unknown: 0.08 to 0.14.
 */
export function shareWithMissingEnds(events: number, unknown: number, number: number): Limits {
  checkEvents(events);
  checkEvents(unknown);
  if (!(number >= 1 && events + unknown <= number))
    throw new RangeError(`${events} and ${unknown} unknown do not fit into ${number}; correct the counts.`);
  return { lower: events / number, upper: (events + unknown) / number };
}
