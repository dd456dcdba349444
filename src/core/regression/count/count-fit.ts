import { type Coefficient, type CoefficientTest, coefficientsOf, type Unfitted } from "../fit/answer.ts";
import { clusterMiddle } from "../fit/cluster.ts";
import { logScales } from "../fit/covariate.ts";
import { type Penalty, withLogF } from "../fit/log-f.ts";
import { maximise } from "../fit/newton.ts";
import { profileTest } from "../fit/profile-limits.ts";
import { cholesky, inverse, sandwich } from "../linear/cholesky.ts";
import { type CountInput, type CountRows, countRows, inUnits, predictors, varianceInUnits } from "./count-rows.ts";
import { countObjective, FAMILIES, type FamilyName } from "./log-likelihood.ts";
import { poissonSums } from "./poisson-sums.ts";

export interface CountFit {
  readonly kind: "fitted";
  /** The intercept first. */
  readonly coefficients: readonly Coefficient[];
  readonly variance: Float64Array;
  readonly robustVariance?: Float64Array;
  readonly events: number;
  readonly rows: number;
  /** Penalised in a penalised fit. */
  readonly logLikelihood: number;
  /** Expected count, or chance, of every row. */
  readonly fitted: Float64Array;
  readonly deviance: number;
  /** Sum of (count - fitted)^2 / variance. */
  readonly pearson: number;
  readonly degreesOfFreedom: number;
  /** Pearson over its degrees: the square of what quasi-Poisson errors are wider by. Blind where fitted counts are below one. */
  readonly dispersion: number;
  readonly steps: number;
  /** Profile likelihood limits and test of one coefficient, found when asked. */
  readonly profile: (name: string, level: number) => CoefficientTest;
}

export function fitCounts(input: CountInput, family: FamilyName, penalty: Penalty): CountFit | Unfitted {
  const penalised = penalty !== "none";
  const rows = countRows(input);
  const total = rows.count.reduce((sum, count) => sum + count, 0);
  if (total === 0 && penalty !== "Firth") return { kind: "no events" };
  // but for Firth's penalty, a Poisson likelihood needs no more than sums over patterns
  const sums = family === "Poisson" && penalty !== "Firth" ? poissonSums(rows, input.covariates) : undefined;
  const plain = sums?.objective ?? countObjective(rows, family, penalty === "Firth");
  const objective = typeof penalty === "object" ? withLogF(plain, penalty.degrees, rows.design, 1) : plain;
  const start = sums?.start() ?? startOf(rows, family, total);
  const atStart = objective(start);
  if (atStart === undefined) return dependentAt(rows, family, start);
  const top = maximise(objective, { start, known: atStart, penalised });
  const named = (column: number) => rows.names[column] as string;
  if (top.kind === "dependent") return { kind: "collinear", covariates: [named(top.column)] };
  if (top.kind === "running off") {
    const covariates = top.columns.filter((j) => j > 0).map(named);
    return { kind: "separated", covariates, logLikelihood: top.point.value };
  }
  if (top.kind === "not settled") return { kind: "not settled", steps: top.steps };
  const factor = cholesky(top.point.information, rows.size);
  if ("dependent" in factor) return { kind: "collinear", covariates: [named(factor.dependent)] };
  const within = inverse(factor);
  const variance = varianceInUnits(rows, within);
  const fitted = sums?.means(top.place) ?? predictors(rows, top.place).map(FAMILIES[family].mean);
  const robustVariance =
    input.cluster === undefined ? undefined : varianceInUnits(rows, robust(rows, fitted, within, input.cluster));
  const degreesOfFreedom = rows.rows - rows.size;
  const { pearson, deviance } = misfit(rows.count, fitted, family);
  return {
    kind: "fitted",
    coefficients: coefficientsOf(rows.names, inUnits(rows, top.place), variance, robustVariance),
    variance,
    ...(robustVariance === undefined ? {} : { robustVariance }),
    events: total,
    rows: rows.rows,
    logLikelihood: top.point.value + (penalty === "Firth" ? logScales(rows.design) : 0),
    fitted,
    deviance,
    pearson,
    degreesOfFreedom,
    dispersion: degreesOfFreedom > 0 ? pearson / degreesOfFreedom : Number.NaN,
    steps: top.steps,
    profile: (name, level) => {
      const j = rows.names.indexOf(name);
      if (j < 1) throw new RangeError(`There is no covariate ${name}; there are ${rows.design.names.join(", ")}.`);
      const scale = (rows.design.scale[j - 1] as number) || 1;
      const spread = Math.sqrt(within[j * rows.size + j] as number);
      const found = profileTest(objective, top, j, spread, level, penalised);
      return { low: found.low / scale, high: found.high / scale, statistic: found.statistic };
    },
  };
}

/** The intercept alone, with half an event added on either side so that it is finite. */
function startOf(rows: CountRows, family: FamilyName, total: number): Float64Array {
  const start = new Float64Array(rows.size);
  const time = rows.exposure.reduce((sum, exposure) => sum + exposure, 0);
  start[0] = Math.log((total + 0.5) / (family === "logistic" ? rows.rows - total + 0.5 : time));
  return start;
}

function dependentAt(rows: CountRows, family: FamilyName, start: Float64Array): Unfitted {
  const plain = countObjective(rows, family, false)(start);
  const factor = plain && cholesky(plain.information, rows.size);
  return factor !== undefined && "dependent" in factor
    ? { kind: "collinear", covariates: [rows.names[factor.dependent] as string] }
    : { kind: "not settled", steps: 0 };
}

/** Sandwich by cluster, no small-sample factor (HC0). */
function robust(rows: CountRows, fitted: Float64Array, within: Float64Array, cluster: ArrayLike<number>): Float64Array {
  const scores = rows.cells.map(
    (x, at) =>
      x * ((rows.count[Math.floor(at / rows.size)] as number) - (fitted[Math.floor(at / rows.size)] as number)),
  );
  return sandwich(within, clusterMiddle(scores, rows.size, cluster), rows.size);
}

function misfit(count: Float64Array, fitted: Float64Array, family: FamilyName): { pearson: number; deviance: number } {
  const { weight } = FAMILIES[family];
  const part = (y: number, mean: number) => (y === 0 ? 0 : y * Math.log(y / mean));
  let pearson = 0;
  let deviance = 0;
  for (let i = 0; i < count.length; i += 1) {
    const y = count[i] as number;
    const mean = fitted[i] as number;
    pearson += (y - mean) ** 2 / weight(mean);
    deviance += part(y, mean) + (family === "Poisson" ? mean - y : part(1 - y, 1 - mean));
  }
  return { pearson, deviance: 2 * deviance };
}
