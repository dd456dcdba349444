import { chiSquareTail, poissonAtLeast, poissonAtMost } from "../../distribution/index.ts";

/** Events and the exposure they arose in: line-days, lines, or any other area of opportunity. */
export interface Point {
  readonly events: number;
  readonly exposure: number;
}

export interface UChartRule {
  /** Half width of the classical limits in standard deviations. */
  readonly sigmas: number;
  /** Chance under which one exact tail is a signal. */
  readonly bound: number;
}

export interface UPoint {
  readonly rate: number;
  /** Classical limits; the lower cut at zero. Wrong below about nine expected events, where only the tails count. */
  readonly lower: number;
  readonly upper: number;
  readonly outsideClassical: boolean;
  /** P(X >= x) and P(X <= x) at the base rate. */
  readonly asManyOrMore: number;
  readonly asFewOrFewer: number;
  /** By the exact tails, never by the classical limits. */
  readonly signal: "high" | "low" | undefined;
}

/**
 * Base rate of a chart: all events over all exposure of the base period.
 * Units: events per unit of exposure. Holds: exposure above zero, else RangeError. Source: Montgomery, ch. 7 (from memory).
 * Example: 153 events on 107.5: 1.423256.
 */
export function baseRate(base: readonly Point[]): number {
  const events = base.reduce((sum, point) => sum + point.events, 0);
  const exposure = base.reduce((sum, point) => sum + checked(point).exposure, 0);
  if (!(exposure > 0)) throw new RangeError("The base period is empty; a chart needs points with exposure.");
  return events / exposure;
}

/**
 * Points of a u chart against a frozen base rate, with classical and exact limits.
 *   u -+ sigmas sqrt(u / n), lower cut at 0; exact: signal when P(X >= x | n u) or P(X <= x | n u) is below the bound
 * Units: events per unit of exposure. Holds: exposure and base above zero, counts whole, else RangeError.
 * Source: Montgomery, Introduction to Statistical Quality Control, ch. 7 (from memory); exact tails: Poisson.
 * Example: 5 in 715 days at 1.566784 per 1000: above the classical limit 6.007703, tail 0.005858, no signal at 0.00135.
 */
export function uChart(points: readonly Point[], base: number, rule: UChartRule): UPoint[] {
  if (!(base > 0)) throw new RangeError(`The base rate is ${base}; it must be above zero.`);
  return points.map((point) => {
    const { events, exposure } = checked(point);
    const half = rule.sigmas * Math.sqrt(base / exposure);
    const rate = events / exposure;
    const asManyOrMore = poissonAtLeast(events, base * exposure);
    const asFewOrFewer = poissonAtMost(events, base * exposure);
    const lower = Math.max(0, base - half);
    return {
      rate,
      lower,
      upper: base + half,
      outsideClassical: rate > base + half || rate < lower,
      asManyOrMore,
      asFewOrFewer,
      signal: asManyOrMore < rule.bound ? "high" : asFewOrFewer < rule.bound ? "low" : undefined,
    };
  });
}

export interface Overdispersion {
  /** Laney's spread of the standardised points; limits of a u' chart are this many times wider. */
  readonly sigmaZ: number;
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly chance: number;
}

/**
 * Whether points vary more than Poisson counts do, and by how much.
 *   z = (u - base) / sqrt(base / n), sigma_z = mean |z_i - z_(i-1)| / 1.128379, X2 = sum z^2 on points - 1
 * Use the wider limits only where sigma_z exceeds 1 and X2 is surprising; never to narrow them.
 * Units: none. Holds: two points or more, else RangeError. Source: Laney 2002, Qual Eng 14:531 (from memory).
 * Example: Montgomery's ten rolls of cloth: sigma_z 0.678567, X2/df 0.890234.
 */
export function overdispersion(points: readonly Point[]): Overdispersion {
  if (points.length < 2) throw new RangeError(`There are ${points.length} points; spread needs two or more.`);
  const base = baseRate(points);
  const z = points.map(({ events, exposure }) => (events / exposure - base) / Math.sqrt(base / exposure));
  const ranges = z.slice(1).map((value, at) => Math.abs(value - (z[at] as number)));
  const chiSquare = z.reduce((sum, value) => sum + value * value, 0);
  return {
    sigmaZ: ranges.reduce((sum, range) => sum + range, 0) / ranges.length / MEAN_RANGE_OF_TWO,
    chiSquare,
    degreesOfFreedom: points.length - 1,
    chance: chiSquareTail("upper", chiSquare, points.length - 1),
  };
}

/** Mean range of two standard normals, 2 / sqrt(pi). */
export const MEAN_RANGE_OF_TWO = 2 / Math.sqrt(Math.PI);

/**
 * Points until a count chart signals, on average.
 *   1 / P(X > limit | m)
 * Units: points. Holds: mean above zero, whole limit, else RangeError. Source: geometric waiting time.
 * Example: mean 0.5, limit 2: 69.503919.
 */
export const countChartRunLength = (limit: number, mean: number): number => 1 / poissonAtLeast(limit + 1, mean);

function checked(point: Point): Point {
  if (!(Number.isInteger(point.events) && point.events >= 0 && point.exposure > 0))
    throw new RangeError(
      `A point has ${point.events} events in ${point.exposure}; the count must be whole, the exposure above zero.`,
    );
  return point;
}
