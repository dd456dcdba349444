import { binomialAtMost } from "../../distribution/index.ts";

export interface RunFindings {
  /** Points off the centre line; those on it are skipped. */
  readonly useful: number;
  readonly longestRun: number;
  readonly longestExpected: number;
  readonly crossings: number;
  readonly fewestExpected: number;
  readonly shift: boolean;
}

/**
 * Longest run on one side of the centre and number of crossings, against what chance allows.
 *   shift when the longest run exceeds round(log2 n + 3), or crossings fall below the 5 % quantile of Binomial(n - 1, 1/2)
 * Units: points. Holds: any number of points; below about ten the rules say little.
 * Source: Anhoej and Olesen 2014, PLoS One 9:e113825 (from memory). Example: 24 useful points: 8 and 8.
 */
export function runFindings(values: readonly number[], centre: number): RunFindings {
  const sides = values.filter((value) => value !== centre).map((value) => value > centre);
  const useful = sides.length;
  let longestRun = 0;
  let run = 0;
  let crossings = 0;
  sides.forEach((side, at) => {
    const same = at > 0 && side === sides[at - 1];
    run = same ? run + 1 : 1;
    if (at > 0 && !same) crossings += 1;
    longestRun = Math.max(longestRun, run);
  });
  const { longest, fewest } = runLimits(useful);
  return {
    useful,
    longestRun,
    longestExpected: longest,
    crossings,
    fewestExpected: fewest,
    shift: longestRun > longest || crossings < fewest,
  };
}

/** The two limits of the run rules for a number of useful points: longest run and fewest crossings still by chance. */
export function runLimits(useful: number): { readonly longest: number; readonly fewest: number } {
  if (useful < 2) return { longest: useful, fewest: 0 };
  let fewest = 0;
  while (binomialAtMost(fewest, useful - 1, 0.5) < 0.05) fewest += 1;
  return { longest: Math.round(Math.log2(useful) + 3), fewest };
}
