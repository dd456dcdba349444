import type { Unfitted } from "../fit/answer.ts";
import { type CountFit, fitCounts } from "./count-fit.ts";
import { checkDegrees } from "../fit/log-f.ts";
import type { CountInput } from "./count-rows.ts";

/**
 * Poisson regression of counts over time at risk.
 *   log E(count) = log exposure + x b; deviance, Pearson's statistic and dispersion beside it
 * With `cluster`, the sandwich of scores summed by cluster stands beside the plain error (HC0, no small-sample factor).
 * One row a line with count 0 or 1 and its dwell as exposure is the exponential model; a row for every stretch of the
 * dwell, with the stretch among the covariates, the piecewise exponential.
 * Holds: counts with variance equal to the mean; dispersion well above one asks for `negativeBinomialRegression`.
 * RangeError for rows that cannot be used; no events, collinear columns and groups without events come back by name.
 * Source: McCullagh P, Nelder JA 1989, 6.2; Frome EL 1983, Biometrics 39:665; White H 1982, Econometrica 50:1.
 * Example: 8 in 1030 days against 3 in 885: log ratio 0.8290.
 */
export function poissonRegression(input: CountInput): CountFit | Unfitted {
  return fitCounts(input, "Poisson", "none");
}

/**
 * Poisson regression with Firth's penalty, for few events or groups without any.
 *   maximum of l(b) + log |X'WX| / 2; one group: rate (x + 1/2) / T
 * Holds: as `poissonRegression`; limits by `profile`, never from the errors. No events at all still has a fit.
 * Source: Firth D 1993, Biometrika 80:27; Kosmidis I, Firth D 2021, Biometrika 108:71.
 * Example: 8/1030, 0/365, 3/885: rates 0.0082524, 0.0013699, 0.0039548.
 */
export function firthPoisson(input: CountInput): CountFit | Unfitted {
  return fitCounts(input, "Poisson", "Firth");
}

/**
 * Poisson regression with a log-F prior on each coefficient but the intercept.
 *   maximum of l(b) + sum of m b / 2 - m log(1 + e^b), m degrees
 * Holds: as `poissonRegression`; b per unit of the covariate as given; limits by `profile`. RangeError for degrees not
 * above zero. Source: Greenland S, Mansournia MA 2015, Stat Med 34:3133 (from memory).
 * Example: 8 in 1030 days against 0 in 365, m = 1: log ratio -1.9681.
 */
export function logFPoisson(input: CountInput, degrees: number): CountFit | Unfitted {
  return fitCounts(input, "Poisson", checkDegrees(degrees));
}
