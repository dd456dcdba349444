import type { Objective, Point } from "../fit/newton.ts";
import { cholesky, inverse, logDeterminant } from "../linear/cholesky.ts";
import { type CountRows, leverages, predictors, weigh } from "./count-rows.ts";

/** What each row gives: its log likelihood's derivative, the weight of its information, and Firth's share of leverage. */
interface Family {
  readonly value: (count: number, predictor: number) => number;
  readonly mean: (predictor: number) => number;
  /** Variance of the count at its mean. */
  readonly weight: (mean: number) => number;
  /** What one unit of leverage adds to the residual under the penalty. */
  readonly pull: (mean: number) => number;
}

const POISSON: Family = {
  value: (count, predictor) => count * predictor - Math.exp(predictor),
  mean: Math.exp,
  weight: (mean) => mean,
  pull: () => 0.5,
};

const LOGISTIC: Family = {
  // log(1 + e^p) without overflow
  value: (count, predictor) => count * predictor - Math.max(predictor, 0) - Math.log1p(Math.exp(-Math.abs(predictor))),
  mean: (predictor) => 1 / (1 + Math.exp(-predictor)),
  weight: (mean) => mean * (1 - mean),
  pull: (mean) => 0.5 - mean,
};

export const FAMILIES = { Poisson: POISSON, logistic: LOGISTIC };
export type FamilyName = keyof typeof FAMILIES;

/** log of count! summed over the rows. */
export function logFactorials(count: Float64Array): number {
  let sum = 0;
  for (const y of count) for (let i = 2; i <= y; i += 1) sum += Math.log(i);
  return sum;
}

/**
 * Log likelihood of a Poisson or logistic regression, with Firth's penalty when asked.
 *   l, U = X'(y - m), I = X'WX; penalised l + log |I| / 2, U = X'(y - m + h pull)
 * Source: McCullagh and Nelder 1989; Firth D 1993, Biometrika 80:27. Example: `poissonRegression`, `firthLogistic`.
 */
export function countObjective(rows: CountRows, name: FamilyName, penalised: boolean): Objective {
  const family = FAMILIES[name];
  const constant = name === "Poisson" ? logFactorials(rows.count) : 0;
  return (place): Point | undefined => {
    const eta = predictors(rows, place);
    const mean = eta.map(family.mean);
    const weight = mean.map(family.weight);
    let value = -constant;
    for (let i = 0; i < rows.rows; i += 1) value += family.value(rows.count[i] as number, eta[i] as number);
    if (!Number.isFinite(value)) return undefined;
    const residual = rows.count.map((count, i) => count - (mean[i] as number));
    const plain = weigh(rows, residual, weight);
    if (!penalised) return { value, ...plain };
    const factor = cholesky(plain.information, rows.size);
    if ("dependent" in factor) return undefined;
    const pulled = leverages(rows, weight, inverse(factor)).map(
      (h, i) => (residual[i] as number) + h * family.pull(mean[i] as number),
    );
    return {
      value: value + logDeterminant(factor) / 2,
      score: weigh(rows, pulled, weight).score,
      information: plain.information,
    };
  };
}
