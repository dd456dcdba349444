import { incompleteGamma, negativeBinomialAtMost, negativeBinomialQuantile } from "../../distribution/index.ts";

export interface GapLimits {
  /** Mean gap of the base. */
  readonly mean: number;
  /** The median is the better centre: most gaps lie below the mean. */
  readonly median: number;
  /** A gap this short or shorter has a chance of at least the bound; a chart of gaps is nearly blind here. */
  readonly lower: number;
  readonly upper: number;
  /** Classical upper limit, mean plus so many standard deviations; the classical lower one is always zero. */
  readonly classicalUpper?: number;
}

export interface GeometricLimits extends GapLimits {
  /** Chance of an event per line, 1 / (mean + 1), and its unbiased form. */
  readonly chance: number;
  readonly unbiasedChance: number;
  readonly classicalUpper: number;
}

/**
 * Limits of a g chart: lines (or whole days) without an event, strictly between two events.
 *   p = 1 / (g + 1); limits are geometric quantiles at `bound` and 1 - `bound`; classical g + sigmas sqrt(g (g + 1))
 * Units: lines. Holds: whole gaps, zero or more, two or more of them, not all zero, else RangeError.
 * Source: Kaminsky and others 1992, J Qual Technol 24:63; Benneyan 2001, Health Care Manag Sci 4:305 (from memory).
 * Example: 19 gaps of mean 50.684: upper 338 at 0.00135, classical 204.23, lower 0.
 */
export function gChartLimits(
  gaps: readonly number[],
  rule: { readonly bound: number; readonly sigmas: number },
): GeometricLimits {
  if (gaps.some((gap) => !Number.isInteger(gap)))
    throw new RangeError("A gap of a g chart is a whole number of lines.");
  const mean = meanGap(gaps);
  const chance = 1 / (mean + 1);
  return {
    mean,
    chance,
    unbiasedChance: (gaps.length - 1) / (gaps.length * mean + gaps.length),
    median: negativeBinomialQuantile(0.5, 1, chance),
    lower: negativeBinomialQuantile(rule.bound, 1, chance),
    upper: negativeBinomialQuantile(1 - rule.bound, 1, chance),
    classicalUpper: mean + rule.sigmas * Math.sqrt(mean * (mean + 1)),
  };
}

/**
 * Chance that the last few gaps together are as short as seen: the remedy for the blind lower side.
 *   P(sum of r gaps <= s) by the negative binomial
 * Units: chance. Holds: whole gaps, base mean above zero, else RangeError. Source: sum of geometrics.
 * Example: 3, 12, 8, 6, 15 at mean 50.684: 0.002548.
 */
export function shortLineGaps(recent: readonly number[], baseMean: number): number {
  if (!(baseMean > 0)) throw new RangeError(`The base mean gap is ${baseMean}; it must be above zero.`);
  return negativeBinomialAtMost(sum(recent), recent.length, 1 / (baseMean + 1));
}

/**
 * Limits of a t chart: exposure between two events, in line-days where the number of lines varies.
 *   median m ln 2, lower -m ln(1 - bound), upper -m ln(bound), m the mean gap
 * Units: those of the gaps. Holds: gaps zero or more, two or more, not all zero, else RangeError; exponential gaps.
 * Source: exponential quantiles. Example: mean 521.736842, bound 0.00135: 0.704821, 361.640421, 3447.454796.
 */
export function tChartLimits(gaps: readonly number[], bound: number): GapLimits {
  if (!(bound > 0 && bound < 0.5)) throw new RangeError(`The bound is ${bound}; it must lie between 0 and one half.`);
  const mean = meanGap(gaps);
  return { mean, median: mean * Math.LN2, lower: -mean * Math.log1p(-bound), upper: -mean * Math.log(bound) };
}

/**
 * Chance that the last few gaps of exposure together are as short as seen.
 *   P(sum of r gaps <= s) = P(r, s / m), the lower incomplete gamma
 * Units: chance. Holds: base mean above zero, else RangeError. Source: sum of exponentials.
 * Example: five gaps of 442 in all at mean 521.736842: 0.001808.
 */
export function shortExposureGaps(recent: readonly number[], baseMean: number): number {
  if (!(baseMean > 0)) throw new RangeError(`The base mean gap is ${baseMean}; it must be above zero.`);
  return incompleteGamma(recent.length, sum(recent) / baseMean).lower;
}

/**
 * Chance of so much exposure without an event: a signal of improvement when small.
 *   P(gap > t) = exp(-t / m)
 * Units: chance. Holds: base mean above zero, else RangeError. Source: exponential tail.
 * Example: 2600 days at mean 521.736842: 0.006851.
 */
export function longExposureGap(since: number, baseMean: number): number {
  if (!(baseMean > 0)) throw new RangeError(`The base mean gap is ${baseMean}; it must be above zero.`);
  return Math.exp(-since / baseMean);
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function meanGap(gaps: readonly number[]): number {
  const mean = sum(gaps) / gaps.length;
  if (gaps.length < 2 || gaps.some((gap) => !(gap >= 0)) || !(mean > 0))
    throw new RangeError(
      `A base of gaps needs two or more, none below zero and not all zero; there are ${gaps.length}.`,
    );
  return mean;
}
