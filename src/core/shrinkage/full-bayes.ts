import { incompleteGamma, logGamma, poissonTerm, solveTail, type TailName } from "../distribution/index.ts";
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

export interface DoubtfulRate extends Doubtful {
  /** Equal-tailed limits of the whole posterior, at the level asked. */
  readonly lower: number;
  readonly upper: number;
  /** Chance that the unit's rate is above the benchmark; undefined where none was asked. */
  readonly chanceAbove: number | undefined;
}

export interface FullBayesRates {
  /** Between units rates are Gamma(shape, rate), both in doubt. */
  readonly shape: Doubtful;
  readonly rate: Doubtful;
  /** Each unit's rate, the doubt about shape and rate included. */
  readonly units: readonly DoubtfulRate[];
}

const COARSE = 120;
/** A smooth weight that vanishes at the edges needs few steps: at 60 every moment and quantile of the checks stands to 1e-8. */
const FINE = 60;
/** Places of less weight than this share of all are left out. */
const NEGLIGIBLE = 1e-13;
/** Widest box that is searched, in natural logs: shape about one, mean about the pooled rate. */
const WIDEST = 14;
/** Places below this share of the highest are left out: e to the minus 30. */
const LOWEST = -30;

interface Box {
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

/** One place of the grid that carries weight; all weights add to one. */
interface Place {
  readonly shape: number;
  readonly rate: number;
  readonly weight: number;
}

/**
 * Rates of units drawn towards their common mean, with the doubt about the spread between them counted in.
 *   count ~ Poisson(lambda T), lambda ~ Gamma(a, b), a ~ exponential, b ~ gamma
 *   E lambda_i = sum over a grid of log a and log a / b of weight (a + count) / (b + T)
 *   limits: where sum of weight P(a + count, (b + T) lambda) takes (1 - level) / 2 and (1 + level) / 2
 * The grid is laid twice: once wide to find where the weight lies, once fine over that. A smooth weight that vanishes
 * at the edges is summed to many digits by equal steps.
 * Units: events per unit of exposure. Holds: two units or more with an event among them, positive priors, 0 < level < 1,
 * else RangeError. Where units are few, these limits are wider than those of `shrinkRates`, as they should be.
 * Source: George EI, Makov UE, Smith AFM 1993, Scand J Stat 20:147.
 * Example: ten pumps, a of mean 1, b Gamma(0.1, 1): a 0.70, b 0.93; 5 failures in 94.32: 0.0598 (0.0210 to 0.1183).
 */
export function fullBayesRates(
  units: UnitCounts,
  prior: SpreadPrior,
  asked: { readonly level: number; readonly benchmark?: number },
): FullBayesRates {
  const { count, exposure, events, time } = checkUnits(units);
  if (!(prior.shapeMean > 0 && prior.rateShape > 0 && prior.rateRate > 0)) {
    throw new RangeError(
      `The prior is ${prior.shapeMean}, ${prior.rateShape}, ${prior.rateRate}; all three have to be above zero.`,
    );
  }
  const side = (1 - asked.level) / 2;
  if (!(side > 0 && side < 0.5)) throw new RangeError(`The level is ${asked.level}; it must lie between zero and one.`);
  const middle = Math.log(events / time);
  const wide: Box = { low: [-WIDEST, middle - WIDEST], high: [WIDEST, middle + WIDEST] };
  const box = whereItLies(weights(wide, COARSE, count, exposure, prior), wide, COARSE);
  const places = placesOf(weights(box, FINE, count, exposure, prior), box, FINE);
  return {
    shape: doubtful(places, ({ shape }) => [shape, shape * shape]),
    rate: doubtful(places, ({ rate }) => [rate, rate * rate]),
    units: Array.from(count, (x, i) => {
      const own = places.map(({ shape, rate, weight }) => {
        const unit = posterior(shape, rate, x, exposure[i] as number);
        return { shape: unit.shape, rate: unit.rate, weight };
      });
      const { mean, standardDeviation } = doubtful(own, ({ shape, rate }) => [
        shape / rate,
        (shape / rate) ** 2 + shape / rate / rate,
      ]);
      return {
        mean,
        standardDeviation,
        lower: mixedQuantile(own, "lower", side, mean),
        upper: mixedQuantile(own, "upper", side, mean),
        chanceAbove: asked.benchmark === undefined ? undefined : mixedTail(own, asked.benchmark, "upper"),
      };
    }),
  };
}

/** Mean and standard deviation over the places, from each place's own first and second moment. */
function doubtful(places: readonly Place[], moments: (place: Place) => readonly [number, number]): Doubtful {
  let [first, second] = [0, 0];
  for (const place of places) {
    const [mean, square] = moments(place);
    first += place.weight * mean;
    second += place.weight * square;
  }
  return { mean: first, standardDeviation: Math.sqrt(Math.max(0, second - first * first)) };
}

/** A tail of gammas mixed by their weights. */
function mixedTail(places: readonly Place[], at: number, side: TailName): number {
  return places.reduce((sum, { shape, rate, weight }) => sum + weight * incompleteGamma(shape, rate * at)[side], 0);
}

function mixedQuantile(places: readonly Place[], side: TailName, target: number, start: number): number {
  return solveTail(
    (at) => ({
      tail: mixedTail(places, at, side),
      slope: places.reduce((sum, { shape, rate, weight }) => sum + weight * shape * poissonTerm(shape, rate * at), 0),
    }),
    target,
    start,
    side === "lower",
  );
}

/** The places whose weight is not negligible, scaled to add to one. */
function placesOf(logWeight: Float64Array, box: Box, steps: number): readonly Place[] {
  const top = logWeight.reduce((a, b) => Math.max(a, b), -Infinity);
  const scaled = logWeight.map((value) => Math.exp(value - top));
  const kept = scaled.map((weight) => (weight < NEGLIGIBLE ? 0 : weight));
  const total = kept.reduce((a, b) => a + b, 0);
  return Array.from(kept, (weight, at) => ({ at, weight: weight / total }))
    .filter(({ weight }) => weight > 0)
    .map(({ at, weight }) => {
      const [shape, rate] = placeAt(box, steps, at);
      return { shape, rate, weight };
    });
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
