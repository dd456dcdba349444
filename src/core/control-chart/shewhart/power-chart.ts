import { MEAN_RANGE_OF_TWO } from "./u-chart.ts";

export interface PowerLimits {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
  /** Mean of the roots, and mean step from one root to the next: what the limits are made of. */
  readonly meanRoot: number;
  readonly meanRange: number;
}

/** The power that makes exponential gaps nearly normal: their Weibull shape becomes 3.6. */
const POWER = 3.6;

/**
 * Limits of a t chart by a power: gaps are made nearly normal, charted as single values, and turned back.
 *   y = t^(1 / 3.6), limits mean y -+ sigmas x mean |y - y'| / 1.128379, turned back by y^3.6, lower cut at 0
 * It follows the spread of the gaps themselves, where `tChartLimits` holds them to be exponential: of use where both disagree.
 * Units: those of the gaps. Holds: gaps zero or more, in order of time, two or more and not all zero, sigmas above zero, else
 * RangeError; like every gap chart nearly blind below. Source: Nelson 1994, J Qual Technol 26:239 (from memory).
 * Example: roots of mean 5.333072 and mean range 2.019789: upper 5084.249, lower 0.
 */
export function tChartByPower(gaps: readonly number[], sigmas: number): PowerLimits {
  if (gaps.length < 2 || gaps.some((gap) => !(gap >= 0)) || !gaps.some((gap) => gap > 0))
    throw new RangeError(
      `A base of gaps needs two or more, none below zero and not all zero; there are ${gaps.length}.`,
    );
  if (!(sigmas > 0)) throw new RangeError(`The limits are ${sigmas} deviations wide; the width must be above zero.`);
  const roots = gaps.map((gap) => gap ** (1 / POWER));
  const meanRoot = roots.reduce((sum, root) => sum + root, 0) / roots.length;
  const ranges = roots.slice(1).map((root, at) => Math.abs(root - (roots[at] as number)));
  const meanRange = ranges.reduce((sum, range) => sum + range, 0) / ranges.length;
  const half = (sigmas * meanRange) / MEAN_RANGE_OF_TWO;
  return {
    centre: meanRoot ** POWER,
    lower: Math.max(0, meanRoot - half) ** POWER,
    upper: (meanRoot + half) ** POWER,
    meanRoot,
    meanRange,
  };
}
