import {
  incompleteGamma,
  incompleteGammaInverse,
  normalQuantile,
  poissonTerm,
  solveTail,
} from "../../distribution/index.ts";

export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** The four ways to put limits on a Poisson count. They differ, so a report names the one it uses and keeps to it. */
export const COUNT_METHODS = ["exact", "mid-P", "Byar", "score"] as const;
export type CountMethod = (typeof COUNT_METHODS)[number];

/**
 * Two-sided limits of a Poisson mean from one count.
 *   exact  lower = chi2(a/2; 2x) / 2, upper = chi2(1 - a/2; 2x + 2) / 2
 *   mid-P  lower: P(X > x | m) + P(X = x | m)/2 = a/2, upper: P(X < x | m) + P(X = x | m)/2 = a/2
 *   Byar   x (1 - 1/(9x) - z/(3 sqrt x))^3, and with x + 1 and + z for the upper
 *   score  x + z^2/2 -+ z sqrt(x + z^2/4)
 * Both sides take a/2, also at x = 0. Units: events.
 * Holds: x whole, zero or more, 0 < level < 1, else RangeError. Byar below 10 events is off by up to half at the lower end.
 * Source: Garwood 1936, Biometrika 28:437 (exact); Cohen and Yang 1994, Stat Med 13:2189 (mid-P); Breslow and Day 1987,
 * vol. II, eq. 2.12 and 2.13 (Byar); from memory. Example: countLimits(10, 0.95, "exact") = 4.795389 to 18.390356.
 */
export function countLimits(events: number, level: number, method: CountMethod): Limits {
  checkEvents(events);
  const side = oneSide(level);
  return BY_METHOD[method](events, side);
}

const BY_METHOD: Readonly<Record<CountMethod, (events: number, side: number) => Limits>> = {
  exact: (events, side) => ({
    lower: events === 0 ? 0 : incompleteGammaInverse(events, "lower", side),
    upper: incompleteGammaInverse(events + 1, "upper", side),
  }),
  "mid-P": midP,
  Byar: (events, side) => byar(events, -normalQuantile(side)),
  score: (events, side) => {
    const z = -normalQuantile(side);
    const half = z * Math.sqrt(events + (z * z) / 4);
    // the lower end as a quotient: the difference loses its digits at small counts
    return { lower: (events * events) / (events + (z * z) / 2 + half), upper: events + (z * z) / 2 + half };
  },
};

/**
 * One-sided upper limit of a Poisson mean: the largest mean under which so few events are not yet surprising.
 *   upper = chi2(level; 2x + 2) / 2, which is -ln(1 - level) at no event
 * Units: events. Holds: x whole, zero or more, 0 < level < 1, else RangeError.
 * Source: Hanley and Lippman-Hand 1983, JAMA 249:1743 (from memory). Example: oneSidedUpper(0, 0.95) = 2.995732.
 */
export function oneSidedUpper(events: number, level: number): number {
  checkEvents(events);
  return incompleteGammaInverse(events + 1, "upper", 2 * oneSide(level));
}

function midP(events: number, side: number): Limits {
  const slope = (m: number) => (events * poissonTerm(events, m) + (events + 1) * poissonTerm(events + 1, m)) / 2;
  // half of "x or more" and half of "more than x" is "more than x and half of x"
  const both = (tail: "lower" | "upper") => (m: number) => ({
    tail: (incompleteGamma(events, m)[tail] + incompleteGamma(events + 1, m)[tail]) / 2,
    slope: slope(m),
  });
  if (events === 0) return { lower: 0, upper: -Math.log(2 * side) };
  return {
    lower: solveTail(both("lower"), side, incompleteGammaInverse(events, "lower", side), true),
    upper: solveTail(both("upper"), side, incompleteGammaInverse(events + 1, "upper", side), false),
  };
}

function byar(events: number, z: number): Limits {
  const cube = (x: number, sign: number) => x * Math.max(0, 1 - 1 / (9 * x) + (sign * z) / (3 * Math.sqrt(x))) ** 3;
  return { lower: events === 0 ? 0 : cube(events, -1), upper: cube(events + 1, 1) };
}

export function checkEvents(events: number): void {
  if (!(Number.isInteger(events) && events >= 0))
    throw new RangeError(`There are ${events} events; the count must be whole and not below zero.`);
}

/** The chance left out on each side of a two-sided interval. */
export function oneSide(level: number): number {
  if (!(level > 0 && level < 1)) throw new RangeError(`The level is ${level}; it must lie between zero and one.`);
  return (1 - level) / 2;
}
