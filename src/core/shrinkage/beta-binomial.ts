import { incompleteBeta, incompleteBetaInverse } from "../distribution/index.ts";

export interface UnitShares {
  /** Those with the event, of each unit. */
  readonly count: ArrayLike<number>;
  /** All of the unit, a whole number above zero. */
  readonly number: ArrayLike<number>;
}

/** A unit's share given its own count and the others': Beta(alpha, beta). */
export interface ShrunkShare {
  readonly mean: number;
  readonly alpha: number;
  readonly beta: number;
  /** How much of the mean is the unit's own share. */
  readonly ownWeight: number;
}

export type ShrunkShares =
  | {
      readonly kind: "shrunk";
      /** Between units shares are Beta(alpha, beta): mean alpha / (alpha + beta). */
      readonly alpha: number;
      readonly beta: number;
      readonly logLikelihood: number;
      readonly units: readonly ShrunkShare[];
    }
  /** The units differ no more than chance: every unit has the pooled share, and its own counts for nothing. */
  | {
      readonly kind: "no excess spread";
      readonly pooled: number;
      /** Sum of (count - n p)^2 / (n p (1 - p)), and its degrees of freedom. */
      readonly pearson: number;
      readonly degreesOfFreedom: number;
    }
  /** Every unit has the event in all or in none: nothing is in common to be drawn to. */
  | { readonly kind: "all or none"; readonly pooled: number };

/**
 * Shares of units drawn towards their common mean, by as much as the units are small.
 *   count ~ Binomial(n, p), p ~ Beta(a, b), a and b by greatest marginal likelihood (beta-binomial)
 *   p given count: Beta(a + count, b + n - count), mean = w count / n + (1 - w) a / (a + b), w = n / (n + a + b)
 * Where sum (count - n m)^2 / (n m (1 - m)) <= units - 1 the likelihood would run to complete pooling: that is the answer.
 * Units: shares of one. Holds: two units or more, whole counts within their numbers, not all with and not all without the
 * event, else RangeError. The beta leaves out the doubt about a and b: under some fifteen units its limits are too narrow.
 * Source: Griffiths DA 1973, Biometrics 29:637 (the likelihood); Normand ST and others 1997, J Am Stat Assoc 92:803 (from
 * memory). Example: 9 of 61 where units are Beta(1.556666, 21.195855): 0.126046.
 */
export function shrinkShares(units: UnitShares): ShrunkShares {
  const count = Float64Array.from(units.count);
  const number = Float64Array.from(units.number);
  const events = count.reduce((a, b) => a + b, 0);
  const all = number.reduce((a, b) => a + b, 0);
  if (count.length !== number.length || count.some((x, i) => !isPart(x, number[i] as number)))
    throw new RangeError("A unit holds a whole number of events and no fewer members; correct the counts.");
  if (count.length < 2 || events === 0 || events === all)
    throw new RangeError(
      `There are ${count.length} units with ${events} events in ${all}; shrinking needs two units, an event and a member without.`,
    );
  const pooled = events / all;
  const pearson = count.reduce((sum, x, i) => {
    const size = number[i] as number;
    return sum + (x - size * pooled) ** 2 / (size * pooled * (1 - pooled));
  }, 0);
  const degreesOfFreedom = count.length - 1;
  if (pearson <= degreesOfFreedom) return { kind: "no excess spread", pooled, pearson, degreesOfFreedom };
  const steps = stepsOf(count, number);
  const best = likeliestSpread(steps, pooled);
  if (best === "none") return { kind: "no excess spread", pooled, pearson, degreesOfFreedom };
  if (best === "endless") return { kind: "all or none", pooled };
  const { mean, spread } = best;
  const [alpha, beta] = [mean / spread, (1 - mean) / spread];
  return {
    kind: "shrunk",
    alpha,
    beta,
    logLikelihood: logLikelihood(steps, mean, spread) + logChoices(count, number),
    units: Array.from(count, (x, i) => posteriorShare(alpha, beta, x, number[i] as number)),
  };
}

/**
 * One unit's share under a prior that is given: Beta(alpha, beta), as if alpha events and beta without had been seen.
 *   Beta(alpha + count, beta + n - count)
 * Units: share of one. Holds: alpha, beta above zero, count a whole part of n, else RangeError. Source: Gelman A and others
 * 2013, Bayesian Data Analysis, 2.4 (from memory). Example: Beta(1.556666, 21.195855), 0 of 25: 0.032599.
 */
export function posteriorShare(alpha: number, beta: number, count: number, number: number): ShrunkShare {
  if (!(alpha > 0 && beta > 0 && isPart(count, number)))
    throw new RangeError(
      `Prior ${alpha}, ${beta} with ${count} of ${number}: both priors are above zero, the count a part.`,
    );
  return {
    mean: (alpha + count) / (alpha + beta + number),
    alpha: alpha + count,
    beta: beta + number - count,
    ownWeight: number / (alpha + beta + number),
  };
}

/**
 * Equal-tailed limits of a unit's share.
 *   quantiles (1 - level) / 2 and (1 + level) / 2 of Beta(alpha, beta)
 * Units: share of one. Holds: 0 < level < 1, else RangeError; the prior is taken as known. Source: definition.
 * Example: 9 of 61 under Beta(1.556666, 21.195855): 0.064353 to 0.204587.
 */
export function shrunkShareLimits({ alpha, beta }: ShrunkShare, level: number): { lower: number; upper: number } {
  const side = (1 - level) / 2;
  if (!(side > 0 && side < 0.5)) throw new RangeError(`The level is ${level}; it must lie between zero and one.`);
  return {
    lower: incompleteBetaInverse(alpha, beta, "lower", side).share,
    upper: incompleteBetaInverse(alpha, beta, "upper", side).share,
  };
}

/**
 * Chance that a unit's share lies above a benchmark.
 *   P(p > benchmark) = 1 - I_benchmark(alpha, beta)
 * Holds: benchmark from zero to one, else RangeError. Source: definition.
 * Example: 9 of 61 under Beta(1.556666, 21.195855), benchmark 0.05: 0.995462.
 */
export const chanceShareAbove = ({ alpha, beta }: ShrunkShare, benchmark: number): number =>
  incompleteBeta(alpha, beta, benchmark, 1 - benchmark).upper;

const isPart = (count: number, number: number): boolean =>
  Number.isInteger(count) && Number.isInteger(number) && count >= 0 && count <= number && number > 0;

/** How many units have more than k with, without and in all, for k = 0, 1, ...: the likelihood is a sum over these. */
interface Steps {
  readonly having: Float64Array;
  readonly lacking: Float64Array;
  readonly all: Float64Array;
}

function stepsOf(count: Float64Array, number: Float64Array): Steps {
  const most = number.reduce((a, b) => Math.max(a, b), 0);
  const steps = { having: new Float64Array(most), lacking: new Float64Array(most), all: new Float64Array(most) };
  const add = (to: Float64Array, upTo: number) => {
    for (let k = 0; k < upTo; k += 1) to[k] = (to[k] as number) + 1;
  };
  count.forEach((x, i) => {
    add(steps.having, x);
    add(steps.lacking, (number[i] as number) - x);
    add(steps.all, number[i] as number);
  });
  return steps;
}

/** Without the binomial coefficients; spread 1 / (a + b) of zero is the binomial itself. */
function logLikelihood({ having, lacking, all }: Steps, mean: number, spread: number): number {
  let sum = 0;
  for (let k = 0; k < all.length; k += 1) {
    if (having[k] !== 0) sum += (having[k] as number) * Math.log(mean + k * spread);
    if (lacking[k] !== 0) sum += (lacking[k] as number) * Math.log(1 - mean + k * spread);
    sum -= (all[k] as number) * Math.log1p(k * spread);
  }
  return sum;
}

/** The likeliest mean at a spread: the likelihood is concave in the mean, so its slope is halved on. */
function meanAt({ having, lacking }: Steps, spread: number): number {
  let low = 0;
  let high = 1;
  for (let turn = 0; turn < 60; turn += 1) {
    const mean = (low + high) / 2;
    let slope = 0;
    for (let k = 0; k < having.length; k += 1)
      slope += (having[k] as number) / (mean + k * spread) - (lacking[k] as number) / (1 - mean + k * spread);
    if (slope > 0) low = mean;
    else high = mean;
  }
  return (low + high) / 2;
}

function slopeInSpread({ having, lacking, all }: Steps, mean: number, spread: number): number {
  let slope = 0;
  for (let k = 1; k < all.length; k += 1)
    slope +=
      k *
      ((having[k] as number) / (mean + k * spread) +
        (lacking[k] as number) / (1 - mean + k * spread) -
        (all[k] as number) / (1 + k * spread));
  return slope;
}

/** Spreads looked at first, in natural logs: from a thousandth of a per cent of the binomial's variance to all or none. */
const [NARROWEST, WIDEST, STRIDE] = [-16, 14, 0.5];

function likeliestSpread(steps: Steps, pooled: number): { mean: number; spread: number } | "none" | "endless" {
  const height = (log: number) => logLikelihood(steps, meanAt(steps, Math.exp(log)), Math.exp(log));
  let [best, highest] = [NARROWEST, logLikelihood(steps, pooled, 0)];
  for (let log = NARROWEST + STRIDE; log <= WIDEST; log += STRIDE) {
    const here = height(log);
    if (here > highest) [best, highest] = [log, here];
  }
  if (best === NARROWEST) return "none";
  if (best >= WIDEST) return "endless";
  // the slope along the ridge falls through zero between the neighbours of the best
  let [low, high] = [best - STRIDE, best + STRIDE];
  for (let turn = 0; turn < 55; turn += 1) {
    const spread = Math.exp((low + high) / 2);
    if (slopeInSpread(steps, meanAt(steps, spread), spread) > 0) low = (low + high) / 2;
    else high = (low + high) / 2;
  }
  const spread = Math.exp((low + high) / 2);
  return { mean: meanAt(steps, spread), spread };
}

/** Sum of ln C(n, x), by its own product: whole numbers, no special function. */
function logChoices(count: Float64Array, number: Float64Array): number {
  return count.reduce((sum, x, i) => {
    const size = number[i] as number;
    let own = 0;
    for (let k = 1; k <= Math.min(x, size - x); k += 1) own += Math.log((size - k + 1) / k);
    return sum + own;
  }, 0);
}
