import type { Objective, Point } from "../fit/newton.ts";
import { cholesky, inverse, logDeterminant } from "../linear/cholesky.ts";
import { addSquares, mirror } from "../linear/gram.ts";
import { type CountRows, leverages, predictors, weigh } from "./count-rows.ts";

/** What each row gives: its log likelihood's derivative, the weight of its information, and Firth's share of leverage. */
interface Family {
  readonly value: (count: number, predictor: number, mean: number) => number;
  readonly mean: (predictor: number) => number;
  /** Variance of the count at its mean. */
  readonly weight: (mean: number) => number;
  /** What one unit of leverage adds to the residual under the penalty. */
  readonly pull: (mean: number) => number;
}

const POISSON: Family = {
  value: (count, predictor, mean) => count * predictor - mean,
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
    const plain = plainPoint(rows, family, place, constant);
    if (plain === undefined || !penalised) return plain;
    const factor = cholesky(plain.information, rows.size);
    if ("dependent" in factor) return undefined;
    const mean = predictors(rows, place).map(family.mean);
    const weight = mean.map(family.weight);
    const pulled = leverages(rows, weight, inverse(factor)).map(
      (h, i) => (rows.count[i] as number) - (mean[i] as number) + h * family.pull(mean[i] as number),
    );
    return {
      value: plain.value + logDeterminant(factor) / 2,
      score: weigh(rows, pulled, weight).score,
      information: plain.information,
    };
  };
}

/** Rows taken at a time: only their weights are kept, however many rows there are. */
const BLOCK = 512;

/** l, U and I in one pass over the rows. */
function plainPoint(rows: CountRows, family: Family, place: Float64Array, constant: number): Point | undefined {
  const { size, cells, count, offset } = rows;
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  const weight = new Float64Array(BLOCK);
  let value = -constant;
  for (let from = 0; from < rows.rows; from += BLOCK) {
    const to = Math.min(rows.rows, from + BLOCK);
    for (let i = from; i < to; i += 1) {
      const start = i * size;
      let predictor = offset[i] as number;
      for (let j = 0; j < size; j += 1) predictor += (cells[start + j] as number) * (place[j] as number);
      const mean = family.mean(predictor);
      const residual = (count[i] as number) - mean;
      value += family.value(count[i] as number, predictor, mean);
      weight[i - from] = family.weight(mean);
      for (let j = 0; j < size; j += 1) score[j] = (score[j] as number) + (cells[start + j] as number) * residual;
    }
    addSquares(information, cells, size, { from, to, weight });
  }
  mirror(information, size);
  return Number.isFinite(value) ? { value, score, information } : undefined;
}
