import type { Day } from "../../quantity/index.ts";
import { checkEvents, countLimits, type CountMethod, type Limits } from "../count/limits.ts";

/**
 * Events over line-days, with the name of the clock that counted the days. Two clocks give two different rates for the
 * same lines, so the name travels with the number and different clocks are never compared.
 */
export interface EventsInDays<Clock extends string = string> {
  readonly events: number;
  readonly days: Day;
  readonly clock: Clock;
}

export interface Rate<Clock extends string = string> extends Limits {
  /** Per 1000 days of the named clock. */
  readonly perThousand: number;
  readonly clock: Clock;
  readonly method: CountMethod;
  readonly level: number;
}

const PER = 1000;

/**
 * Rate per 1000 days with two-sided limits.
 *   rate = 1000 x / T, limits of x by `countLimits` divided by T
 * Units: events per 1000 days of the named clock. Holds: T known without error and above zero, else RangeError.
 * Source: Garwood 1936, Biometrika 28:437 and those of `countLimits`.
 * Example: 7 events in 4321.5 days: 1.619808 (exact 0.651247 to 3.337423).
 */
export function incidenceRate<Clock extends string>(
  seen: EventsInDays<Clock>,
  level: number,
  method: CountMethod,
): Rate<Clock> {
  checkDays(seen.days);
  const { lower, upper } = countLimits(seen.events, level, method);
  const scale = PER / seen.days;
  return {
    perThousand: seen.events * scale,
    lower: lower * scale,
    upper: upper * scale,
    clock: seen.clock,
    method,
    level,
  };
}

export function checkDays(days: number): void {
  if (!(days > 0 && days < Infinity))
    throw new RangeError(`There are ${days} days; a rate needs more than zero. Print the count alone.`);
}

/** Stops a comparison of rates whose days were counted in different ways. */
export function checkPair(first: EventsInDays, second: EventsInDays): void {
  for (const side of [first, second]) {
    checkEvents(side.events);
    checkDays(side.days);
  }
  if (first.clock !== second.clock)
    throw new RangeError(
      `The days are counted as "${first.clock}" and as "${second.clock}"; count both the same way before comparing.`,
    );
}
