import { incompleteBeta } from "../distribution/index.ts";

/** Tails of a unit's count: as many or more, as few or fewer. */
export interface UnitTails {
  readonly asManyOrMore: number;
  readonly asFewOrFewer: number;
}

/** Counts at which one tail is as small as asked; undefined where no possible count is so unlikely. */
export interface TailLimits {
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/**
 * Chance of a unit's count when all units have one rate, given how many events there were in all.
 *   x_i | sum x = X is binomial(X, T_i / sum T): the common rate is unknown and drops out
 * Units: chances. Holds: events whole and no more than all, 0 < share < 1, else RangeError.
 * Source: Przyborowski J, Wilenski H 1940, Biometrika 31:313 (from memory). Example: 8 of 20 at a share of 0.2: as many or more 0.032143.
 */
export function tailsAmong(events: number, all: number, share: number): UnitTails {
  if (!(Number.isInteger(events) && events >= 0 && Number.isInteger(all) && all >= events))
    throw new RangeError(`${events} of ${all} events: both are whole, and a part is no more than the whole.`);
  checkShare(share);
  return {
    asManyOrMore: events === 0 ? 1 : atLeastAmong(events, all, share),
    asFewOrFewer: events === all ? 1 : 1 - atLeastAmong(events + 1, all, share),
  };
}

/**
 * Limits of a funnel that a count reaches exactly when its tail is as small as asked.
 *   upper U: I_share(U, X - U + 1) = tail; lower L: 1 - I_share(L + 1, X - L) = tail, both between whole counts
 * Divide by the days of the unit for a rate. Units: events. Holds: X whole and above zero, 0 < share < 1, 0 < tail < 1/2,
 * else RangeError. Source: as `tailsAmong`, its tails as incomplete beta functions, Abramowitz and Stegun 1964, 26.5.24.
 * Example: 20 events, a share of 0.2, tail 0.025: 0.365929 to 8.228249.
 */
export function limitsAmong(all: number, share: number, tail: number): TailLimits {
  if (!(Number.isInteger(all) && all > 0)) throw new RangeError(`There are ${all} events in all; a funnel needs some.`);
  checkShare(share);
  return limitsWhere((count) => atLeastAmong(count, all, share), all, tail);
}

/**
 * Tails of a unit's count when units differ beyond chance: a gamma of mean one and variance `between` lies on every rate.
 *   negative binomial of mean E and variance E + E^2 between
 * Units: chances. Holds: whole count, E and between above zero, else RangeError. Source: Spiegelhalter DJ 2005, Stat Med
 * 24:1185, section 5 (additive spread; from memory); the gamma keeps limits above zero where its normal form does not.
 * Example: 8 at an expectation of 4, between 0.25: as many or more 0.113281.
 */
export function tailsWidened(events: number, expected: number, between: number): UnitTails {
  if (!(Number.isInteger(events) && events >= 0))
    throw new RangeError(`There are ${events} events; the count must be whole and not below zero.`);
  const atLeast = widened(expected, between);
  return { asManyOrMore: events === 0 ? 1 : atLeast(events), asFewOrFewer: 1 - atLeast(events + 1) };
}

/**
 * Limits that a count reaches exactly when its widened tail is as small as asked.
 * Units: events. Holds and source: as `tailsWidened`; 0 < tail < 1/2, else RangeError.
 * Example: an expectation of 4, between 0.25, tail 0.025: no lower limit, upper 11.283679.
 */
export function limitsWidened(expected: number, between: number, tail: number): TailLimits {
  return limitsWhere(widened(expected, between), Infinity, tail);
}

function widened(expected: number, between: number): (count: number) => number {
  if (!(expected > 0 && expected < Infinity && between > 0 && between < Infinity))
    throw new RangeError(`${expected} expected, ${between} between units: both are finite and above zero.`);
  const size = 1 / between;
  const [x, y] = [expected / (expected + size), size / (expected + size)];
  return (count) => incompleteBeta(count, size, x, y).lower;
}

const atLeastAmong = (count: number, all: number, share: number): number =>
  incompleteBeta(count, all - count + 1, share, 1 - share).lower;

/** `atLeast` falls from one at nought; counts between whole ones are those of the incomplete beta function. */
function limitsWhere(atLeast: (count: number) => number, most: number, tail: number): TailLimits {
  if (!(tail > 0 && tail < 0.5)) throw new RangeError(`The tail is ${tail}; give one between nought and one half.`);
  return {
    upper: most < Infinity && atLeast(most) > tail ? undefined : whereItFallsTo(atLeast, most, tail),
    lower: 1 - atLeast(1) > tail ? undefined : whereItFallsTo(atLeast, most, 1 - tail) - 1,
  };
}

/** Relative, of a tail: far finer than any limit is told. */
const CLOSE = 1e-13;

/** The false position on the logarithm of the tail, its lazy end halved (Illinois): a handful of steps, as it falls smoothly. */
function whereItFallsTo(atLeast: (count: number) => number, most: number, chance: number): number {
  const above = (count: number) => (count <= 0 ? -Math.log(chance) : Math.log(atLeast(count) / chance));
  let [low, high] = [0, Math.min(1, most)];
  let [atLow, atHigh] = [above(low), above(high)];
  while (atHigh > 0) {
    [low, atLow] = [high, atHigh];
    // between the last count and one beyond it the function still falls, to nought
    high = high >= most ? most + 1 - 1e-9 : Math.min(2 * high, most);
    atHigh = above(high);
  }
  let moved: "low" | "high" | undefined;
  for (let turn = 0; turn < 200 && high - low > 1e-13 * high; turn += 1) {
    const between = Number.isFinite(atHigh) ? high - (atHigh * (high - low)) / (atHigh - atLow) : (low + high) / 2;
    const middle = between > low && between < high ? between : (low + high) / 2;
    const here = above(middle);
    if (here > 0) {
      if (moved === "low") atHigh /= 2;
      [low, atLow, moved] = [middle, here, "low"];
    } else {
      if (moved === "high") atLow /= 2;
      [high, atHigh, moved] = [middle, here, "high"];
    }
    if (Math.abs(here) < CLOSE) return middle;
  }
  return (low + high) / 2;
}

function checkShare(share: number): void {
  if (!(share > 0 && share < 1)) throw new RangeError(`The share is ${share}; it lies between zero and one.`);
}
