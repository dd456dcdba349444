import type { Unfitted } from "../fit/answer.ts";
import { checkDegrees, type Penalty } from "../fit/log-f.ts";
import { type CountFit, fitCounts } from "./count-fit.ts";
import type { CountInput } from "./count-rows.ts";

/** `count` holds the outcome, 0 or 1. */
export type OutcomeInput = Omit<CountInput, "exposure">;

function withOutcome(input: OutcomeInput, penalty: Penalty): CountFit | Unfitted {
  for (let i = 0; i < input.count.length; i += 1) {
    if (input.count[i] !== 0 && input.count[i] !== 1) {
      throw new RangeError(`Row ${i + 1} has outcome ${input.count[i]}; it is 0 or 1.`);
    }
  }
  const { count, covariates, cluster } = input;
  return fitCounts({ count, covariates, ...(cluster === undefined ? {} : { cluster }) }, "logistic", penalty);
}

/**
 * Logistic regression of an outcome that is 0 or 1.
 *   log odds = x b
 * Holds: one row a person or line; no events, collinear columns and covariates that tell the outcome without fail come
 * back by name. RangeError for rows that cannot be used.
 * Source: Cox DR 1958, J R Stat Soc B 20:215; Albert A, Anderson JA 1984, Biometrika 71:1.
 * Example: 2 of 4 against 1 of 4: log odds ratio 1.0986.
 */
export function logisticRegression(input: OutcomeInput): CountFit | Unfitted {
  return withOutcome(input, "none");
}

/**
 * Logistic regression with Firth's penalty, for few events or a covariate that tells the outcome without fail.
 *   score X'(y - p + h (1/2 - p)), h the leverage; a two-by-two table: 1/2 added to each cell
 * Holds: as `logisticRegression`; limits by `profile`, never from the errors. The mean chance is pulled towards 1/2.
 * Source: Firth D 1993, Biometrika 80:27; Heinze G, Schemper M 2002, Stat Med 21:2409.
 * Example: endometrial cancer, NV: 2.9293 (0.6097 to 7.8546).
 */
export function firthLogistic(input: OutcomeInput): CountFit | Unfitted {
  return withOutcome(input, "Firth");
}

/**
 * Logistic regression with a log-F prior on each coefficient but the intercept, which leaves the mean chance unbiased.
 *   maximum of l(b) + sum of m b / 2 - m log(1 + e^b), m degrees
 * Holds: as `logisticRegression`; b per unit of the covariate as given; limits by `profile`. RangeError for degrees not
 * above zero. Source: Greenland S, Mansournia MA 2015, Stat Med 34:3133 (from memory).
 * Example: endometrial cancer, NV, m = 1: 2.9769.
 */
export function logFLogistic(input: OutcomeInput, degrees: number): CountFit | Unfitted {
  return withOutcome(input, checkDegrees(degrees));
}
