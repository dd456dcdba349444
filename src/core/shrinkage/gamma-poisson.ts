import { incompleteGamma, incompleteGammaInverse, negativeBinomialAtLeast } from "../distribution/index.ts";
import { negativeBinomialRegression } from "../regression/index.ts";

export interface UnitCounts {
  /** Events of each unit. */
  readonly count: ArrayLike<number>;
  /** Its time at risk, above zero, in one unit. */
  readonly exposure: ArrayLike<number>;
}

/** A unit's rate given its own events and the others': Gamma(shape, rate). */
export interface ShrunkRate {
  readonly mean: number;
  readonly shape: number;
  /** In units of exposure. */
  readonly rate: number;
  /** How much of the mean is the unit's own rate. */
  readonly ownWeight: number;
}

export type ShrunkRates =
  | {
      readonly kind: "shrunk";
      /** Between units rates are Gamma(shape, rate): mean shape / rate. */
      readonly shape: number;
      readonly rate: number;
      readonly logLikelihood: number;
      readonly units: readonly ShrunkRate[];
    }
  /** The units differ no more than chance: every unit has the pooled rate, and its own counts for nothing. */
  | {
      readonly kind: "no excess spread";
      readonly pooled: number;
      /** Sum of (count - expected)^2 / expected, and its degrees of freedom. */
      readonly pearson: number;
      readonly degreesOfFreedom: number;
    };

/**
 * Rates of units drawn towards their common mean, by as much as their own events are few.
 *   count ~ Poisson(lambda T), lambda ~ Gamma(a, b), a and b by greatest marginal likelihood (negative binomial)
 *   lambda given count: Gamma(a + count, b + T), mean = w count / T + (1 - w) a / b, w = T / (T + b)
 * Where sum (count - m)^2 / m <= units - 1 the likelihood would run to complete pooling, and that is the answer.
 * Holds: two units or more with an event among them, else RangeError. Limits from the gamma leave out the doubt about
 * a and b: with fewer than some fifteen units they are too narrow.
 * Source: Clayton D, Kaldor J 1987, Biometrics 43:671; Gaver DP, O'Muircheartaigh IG 1987, Technometrics 29:1.
 * Example: ten pumps: a 0.822268, b 1.258954; 5 failures in 94.32: 0.0609158.
 */
export function shrinkRates(units: UnitCounts): ShrunkRates {
  const { count, exposure, events, time } = checkUnits(units);
  const fit = negativeBinomialRegression({ count, exposure, covariates: [] });
  const pooled = events / time;
  const pearson = count.reduce(
    (sum, x, i) => sum + (x - pooled * (exposure[i] as number)) ** 2 / (pooled * (exposure[i] as number)),
    0,
  );
  const degreesOfFreedom = count.length - 1;
  if (pearson <= degreesOfFreedom || fit.kind !== "fitted") {
    return { kind: "no excess spread", pooled, pearson, degreesOfFreedom };
  }
  const shape = fit.theta;
  const rate = shape / Math.exp(fit.coefficients[0]?.value as number);
  return {
    kind: "shrunk",
    shape,
    rate,
    logLikelihood: fit.logLikelihood,
    units: Array.from(count, (x, i) => posterior(shape, rate, x, exposure[i] as number)),
  };
}

/** Two units or more with an event among them, else RangeError. */
export function checkUnits(units: UnitCounts): {
  readonly count: Float64Array;
  readonly exposure: Float64Array;
  readonly events: number;
  readonly time: number;
} {
  const count = Float64Array.from(units.count);
  const exposure = Float64Array.from(units.exposure);
  const events = count.reduce((a, b) => a + b, 0);
  const time = exposure.reduce((a, b) => a + b, 0);
  if (count.length < 2 || !(events > 0)) {
    throw new RangeError(
      `There are ${count.length} units with ${events} events; shrinking needs two units and an event.`,
    );
  }
  return { count, exposure, events, time };
}

/**
 * One unit's rate under a prior that is given: Gamma(shape, rate), as if shape events had been seen in rate of time.
 *   Gamma(shape + count, rate + T)
 * Holds: shape above zero, rate of zero or more (Jeffreys: 1/2 and 0), exposure above zero, else RangeError.
 * Source: Gelman A and others 2013, Bayesian Data Analysis, 2.6 (from memory).
 * Example: 4 events' worth at 1 per 1000 days, then 7 in 4321.5 days: 1.321877 per 1000.
 */
export function posterior(shape: number, rate: number, count: number, exposure: number): ShrunkRate {
  if (!(shape > 0 && rate >= 0 && count >= 0 && exposure > 0)) {
    throw new RangeError(
      `Prior ${shape}, ${rate} with ${count} events in ${exposure}: shape and exposure are above zero, the others not below.`,
    );
  }
  return {
    mean: (shape + count) / (rate + exposure),
    shape: shape + count,
    rate: rate + exposure,
    ownWeight: exposure / (rate + exposure),
  };
}

/**
 * Equal-tailed limits of a unit's rate.
 *   quantiles (1 - level) / 2 and (1 + level) / 2 of Gamma(shape, rate)
 * Units: events per unit of exposure. Holds: 0 < level < 1, else RangeError; the prior is taken as known. Source:
 * definition. Example: 7 in 4321.5 days under Gamma(4, 4000): 0.659876 to 2.209981 per 1000.
 */
export function shrunkRateLimits({ shape, rate }: ShrunkRate, level: number): { lower: number; upper: number } {
  const side = (1 - level) / 2;
  if (!(side > 0 && side < 0.5)) throw new RangeError(`The level is ${level}; it must lie between zero and one.`);
  return {
    lower: incompleteGammaInverse(shape, "lower", side) / rate,
    upper: incompleteGammaInverse(shape, "upper", side) / rate,
  };
}

/**
 * Chance that a unit's rate lies above a benchmark.
 *   P(lambda > benchmark) = Q(shape, rate x benchmark)
 * Holds: benchmark zero or more, else RangeError. Source: definition.
 * Example: 7 in 4321.5 days under Gamma(4, 4000), benchmark 1 per 1000: 0.782745.
 */
export const chanceRateAbove = ({ shape, rate }: ShrunkRate, benchmark: number): number =>
  incompleteGamma(shape, rate * benchmark).upper;

/**
 * Chance of so many events or more in time to come, the doubt about the unit's rate inside.
 *   P(X >= k) for X negative binomial of size `shape`, chance rate / (rate + T)
 * Holds: whole k, exposure above zero, else RangeError. Source: Gelman A and others 2013, 2.6 (from memory).
 * Example: 7 in 4321.5 days under Gamma(4, 4000): 4 or more in 1500 days: 0.153841.
 */
export function chanceOfEventsToCome({ shape, rate }: ShrunkRate, count: number, exposure: number): number {
  if (!(exposure > 0)) throw new RangeError(`The exposure to come is ${exposure}; it must be above zero.`);
  return negativeBinomialAtLeast(count, shape, rate / (rate + exposure));
}
