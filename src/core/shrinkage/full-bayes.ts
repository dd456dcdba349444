import { logGamma } from "../distribution/index.ts";
import { checkUnits, posterior, type UnitCounts } from "./gamma-poisson.ts";

/** What is held of the spread between units before their events are seen. */
export interface SpreadPrior {
  /** The shape between units is exponential with this mean. */
  readonly shapeMean: number;
  /** The rate between units is Gamma(shape, rate). */
  readonly rateShape: number;
  readonly rateRate: number;
}

interface Doubtful {
  readonly mean: number;
  readonly standardDeviation: number;
}

export interface FullBayesRates {
  /** Between units rates are Gamma(shape, rate), both in doubt. */
  readonly shape: Doubtful;
  readonly rate: Doubtful;
  /** Each unit's rate, the doubt about shape and rate included. */
  readonly units: readonly Doubtful[];
}

const COARSE = 120;
const FINE = 200;
/** Widest box that is searched, in natural logs: shape about one, mean about the pooled rate. */
const WIDEST = 14;
/** Places below this share of the highest are left out: e to the minus 30. */
const LOWEST = -30;

interface Box {
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

/**
 * Rates of units drawn towards their common mean, with the doubt about the spread between them counted in.
 *   count ~ Poisson(lambda T), lambda ~ Gamma(a, b), a ~ exponential, b ~ gamma
 *   E lambda_i = sum over a grid of log a and log a / b of weight (a + count) / (b + T)
 * The grid is laid twice: once wide to find where the weight lies, once fine over that. A smooth weight that vanishes
 * at the edges is summed to many digits by equal steps.
 * Holds: two units or more with an event among them, positive priors, else RangeError. Where units are few, these
 * limits are wider than those of `shrinkRates`, as they should be.
 * Source: George EI, Makov UE, Smith AFM 1993, Scand J Stat 20:147.
 * Example: ten pumps, a of mean 1, b Gamma(0.1, 1): a 0.70, b 0.93; 5 failures in 94.32: 0.0598.
 */
export function fullBayesRates(units: UnitCounts, prior: SpreadPrior): FullBayesRates {
  const { count, exposure, events, time } = checkUnits(units);
  if (!(prior.shapeMean > 0 && prior.rateShape > 0 && prior.rateRate > 0)) {
    throw new RangeError(
      `The prior is ${prior.shapeMean}, ${prior.rateShape}, ${prior.rateRate}; all three have to be above zero.`,
    );
  }
  const middle = Math.log(events / time);
  const wide: Box = { low: [-WIDEST, middle - WIDEST], high: [WIDEST, middle + WIDEST] };
  const box = whereItLies(weights(wide, COARSE, count, exposure, prior), wide, COARSE);
  const fine = weights(box, FINE, count, exposure, prior);
  const top = fine.reduce((a, b) => Math.max(a, b), -Infinity);
  let total = 0;
  // first and second moments of shape, rate and the units' rates
  const first = new Float64Array(2 + count.length);
  const second = new Float64Array(2 + count.length);
  const take = (k: number, weight: number, mean: number, square: number) => {
    first[k] = (first[k] as number) + weight * mean;
    second[k] = (second[k] as number) + weight * square;
  };
  for (let at = 0; at < fine.length; at += 1) {
    const weight = Math.exp((fine[at] as number) - top);
    if (weight === 0) continue;
    const [shape, rate] = placeAt(box, FINE, at);
    total += weight;
    take(0, weight, shape, shape * shape);
    take(1, weight, rate, rate * rate);
    for (let i = 0; i < count.length; i += 1) {
      const own = posterior(shape, rate, count[i] as number, exposure[i] as number);
      take(2 + i, weight, own.mean, own.mean * own.mean + own.mean / own.rate);
    }
  }
  const doubtful = Array.from(first, (sum, k): Doubtful => {
    const mean = sum / total;
    return { mean, standardDeviation: Math.sqrt(Math.max(0, (second[k] as number) / total - mean * mean)) };
  });
  const [shape, rate, ...rest] = doubtful as [Doubtful, Doubtful, ...Doubtful[]];
  return { shape, rate, units: rest };
}

/** Shape and rate at one place of the grid. */
function placeAt({ low, high }: Box, steps: number, at: number): [shape: number, rate: number] {
  const along = (axis: 0 | 1, k: number) => low[axis] + ((high[axis] - low[axis]) * k) / steps;
  const shape = Math.exp(along(0, Math.floor(at / (steps + 1))));
  return [shape, shape / Math.exp(along(1, at % (steps + 1)))];
}

/** Log posterior weight over the grid, up to a constant. */
function weights(
  box: Box,
  steps: number,
  count: Float64Array,
  exposure: Float64Array,
  prior: SpreadPrior,
): Float64Array {
  const result = new Float64Array((steps + 1) ** 2);
  let gammas = 0;
  for (let at = 0; at < result.length; at += 1) {
    const [shape, rate] = placeAt(box, steps, at);
    // the shape is the same along a row of the grid
    if (at % (steps + 1) === 0) {
      gammas = count.reduce((sum, x) => sum + logGamma(shape + x), 0) - count.length * logGamma(shape);
    }
    // a and b are taken on log scales, which adds log a + log b to the priors
    let value = gammas - shape / prior.shapeMean + Math.log(shape);
    value += prior.rateShape * Math.log(rate) - prior.rateRate * rate;
    for (let i = 0; i < count.length; i += 1) {
      const all = rate + (exposure[i] as number);
      value -= shape * Math.log1p((exposure[i] as number) / rate) + (count[i] as number) * Math.log(all);
    }
    result[at] = value;
  }
  return result;
}

/** The part of the box whose weight is not negligible, with one step to spare on each side. */
function whereItLies(weight: Float64Array, box: Box, steps: number): Box {
  const top = weight.reduce((a, b) => Math.max(a, b), -Infinity);
  const low: [number, number] = [steps, steps];
  const high: [number, number] = [0, 0];
  for (let at = 0; at < weight.length; at += 1) {
    if ((weight[at] as number) < top + LOWEST) continue;
    for (const axis of [0, 1] as const) {
      const k = axis === 0 ? Math.floor(at / (steps + 1)) : at % (steps + 1);
      low[axis] = Math.min(low[axis], k - 1);
      high[axis] = Math.max(high[axis], k + 1);
    }
  }
  const along = (axis: 0 | 1, k: number) => box.low[axis] + ((box.high[axis] - box.low[axis]) * k) / steps;
  return { low: [along(0, low[0]), along(1, low[1])], high: [along(0, high[0]), along(1, high[1])] };
}
