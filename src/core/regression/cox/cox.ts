import { type Coefficient, type CoefficientTest, coefficientsOf, type Unfitted } from "../fit/answer.ts";
import { clusterMiddle } from "../fit/cluster.ts";
import { type Covariate, designOf, logScales, unscale, unscaleVariance } from "../fit/covariate.ts";
import { checkDegrees, type Penalty, withLogF } from "../fit/log-f.ts";
import { maximise, type Objective } from "../fit/newton.ts";
import { profileTest } from "../fit/profile-limits.ts";
import { bilinear, cholesky, inverse, sandwich, solve } from "../linear/cholesky.ts";
import { type Concordance, concordanceOf } from "./concordance.ts";
import { type CumulativeHazard, hazardAtZero } from "./cumulative-hazard.ts";
import { type CoxRows, partialLikelihood, penalisedPartialLikelihood } from "./partial-likelihood.ts";
import { type ProportionalHazards, proportionalHazards, type TimeScale } from "./proportional-hazards.ts";
import { type EventTimes, riskSets } from "./risk-sets.ts";
import { scoreResiduals } from "./score-residuals.ts";
import type { Ties } from "./sweep.ts";
import { unoWeights } from "./uno-weights.ts";

export interface CoxInput extends EventTimes {
  readonly covariates: readonly Covariate[];
  /** Who the rows belong to: the patient, for lines of one patient or for repeated events. */
  readonly cluster?: ArrayLike<number>;
}

export interface CoxFit {
  readonly kind: "fitted";
  readonly coefficients: readonly Coefficient[];
  readonly variance: Float64Array;
  readonly robustVariance?: Float64Array;
  readonly events: number;
  readonly rows: number;
  /** At zero and at the coefficients; penalised in a penalised fit. Twice the difference is the likelihood-ratio test. */
  readonly logLikelihoodAtZero: number;
  readonly logLikelihood: number;
  /** Score test of all coefficients together; absent in a penalised fit. */
  readonly scoreTest?: number;
  readonly steps: number;
  /** How well the fit foretells which of two rows has its event first, found when asked; by cluster where there is one. */
  readonly concordance: () => Concordance;
  /**
   * The same by Uno's weights, which do not hang on who was censored when; pairs whose earlier event is after `until` are
   * left out. Its error takes the weights as known. Undefined with delayed entry or strata.
   */
  readonly unoConcordance: (until?: number) => Concordance | undefined;
  /** Of a row whose covariates are all zero, found when asked. */
  readonly hazard: () => CumulativeHazard;
  /** Profile likelihood limits and test of one coefficient, found when asked. */
  readonly profile: (name: string, level: number) => CoefficientTest;
  /** Tests each term, then all together; without `terms` every covariate is a term. Absent in a penalised fit. */
  readonly proportional?: (scale?: TimeScale, terms?: readonly (readonly string[])[]) => ProportionalHazards;
}

/**
 * Cox regression: hazard ratios by maximum partial likelihood.
 *   hazard = h0(t) exp(x b), h0 free in each stratum; at an event at u the risk set is entry < u <= exit
 * Ties by Efron unless asked. With `cluster` the sandwich of scores summed by cluster stands beside the plain error
 * (Efron and Breslow). Repeated events: one row per stretch with its own entry, the patient as the cluster
 * (Andersen-Gill), and the number of the event as the stratum (Prentice-Williams-Peterson).
 * Holds: hazards proportional; tests of that by `proportional`. RangeError for rows that cannot be used; no events,
 * collinear columns, and a likelihood that rises for ever come back by name.
 * Source: Cox DR 1972; Efron B 1977; Lin DY, Wei LJ 1989, J Am Stat Assoc 84:1074; Andersen PK, Gill RD 1982, Ann Stat
 * 10:1100; Prentice RL and others 1981, Biometrika 68:373.
 * Example: Freireich's trial, control against 6-MP: b = 1.57213 (SE 0.41240).
 */
export function coxRegression(input: CoxInput, ties: Ties = "efron"): CoxFit | Unfitted {
  return fitCox(input, ties, "none");
}

/**
 * Cox regression with Firth's penalty, for few events or a likelihood that rises for ever.
 *   maximum of l(b) + log |I(b)| / 2; errors from I^-1; limits by `profile`, never from the errors
 * Holds: as `coxRegression`; Breslow ties as published, Efron when asked.
 * Source: Firth D 1993, Biometrika 80:27; Heinze G, Schemper M 2001, Biometrics 57:114.
 * Example: Freireich's trial: b = 1.47934.
 */
export function firthCox(input: CoxInput, ties: "breslow" | "efron" = "breslow"): CoxFit | Unfitted {
  return fitCox(input, ties, "Firth");
}

/**
 * Cox regression with a log-F prior on each coefficient: Firth's rival for few events, whose prior does not hang on the data.
 *   maximum of l(b) + sum of m b / 2 - m log(1 + e^b), m degrees
 * Holds: as `coxRegression`; b per unit of the covariate as given; limits by `profile`. RangeError for degrees not above
 * zero. Source: Greenland S, Mansournia MA 2015, Stat Med 34:3133 (from memory).
 * Example: Freireich's trial, control against 6-MP, Efron, m = 2: b = 1.46773.
 */
export function logFCox(input: CoxInput, degrees: number, ties: Ties = "efron"): CoxFit | Unfitted {
  return fitCox(input, ties, checkDegrees(degrees));
}

function fitCox(input: CoxInput, ties: Ties, penalty: Penalty): CoxFit | Unfitted {
  const penalised = penalty !== "none";
  const sets = riskSets(input);
  const design = designOf(input.covariates, sets.rows, sets.source);
  const { size, names, cells } = design;
  if (sets.places === 0) return { kind: "no events" };
  const room = { theta: new Float64Array(sets.rows), hazard: new Float64Array(sets.rows) };
  const rows: CoxRows = { sets, size, cells, ties, room };
  // the penalty is per unit asked for, and so differs by the log of the scales
  const shift = penalty === "Firth" ? logScales(design) : 0;
  const plain: Objective = (place) =>
    penalty === "Firth" ? penalisedPartialLikelihood(rows, place) : partialLikelihood(rows, place);
  const objective = typeof penalty === "object" ? withLogF(plain, penalty.degrees, design, 0) : plain;
  const zero = new Float64Array(size);
  const plainAtZero = partialLikelihood(rows, zero);
  const atZero = penalised ? objective(zero) : plainAtZero;
  if (plainAtZero === undefined || atZero === undefined) {
    const dependent = plainAtZero && cholesky(plainAtZero.information, size);
    return dependent !== undefined && "dependent" in dependent
      ? { kind: "collinear", covariates: [names[dependent.dependent] as string] }
      : { kind: "not settled", steps: 0 };
  }
  const top = maximise(objective, { start: zero, known: atZero, penalised });
  if (top.kind === "dependent") return { kind: "collinear", covariates: [names[top.column] as string] };
  if (top.kind === "running off") {
    return {
      kind: "separated",
      covariates: top.columns.map((j) => names[j] as string),
      logLikelihood: top.point.value,
    };
  }
  if (top.kind === "not settled") return { kind: "not settled", steps: top.steps };
  const factor = cholesky(top.point.information, size);
  if ("dependent" in factor) return { kind: "collinear", covariates: [names[factor.dependent] as string] };
  const within = inverse(factor);
  const variance = unscaleVariance(design, within);
  const robustVariance =
    input.cluster === undefined || ties === "exact"
      ? undefined
      : unscaleVariance(
          design,
          sandwich(within, clusterMiddle(scoreResiduals(rows, top.place), size, input.cluster), size),
        );
  const startFactor = cholesky(plainAtZero.information, size);
  const events = sets.event.reduce((sum, event) => sum + event, 0);
  const predicted = () => linearPredictors(cells, size, sets.rows, top.place);
  return {
    kind: "fitted",
    coefficients: coefficientsOf(names, unscale(design, top.place), variance, robustVariance),
    variance,
    ...(robustVariance === undefined ? {} : { robustVariance }),
    events,
    rows: sets.rows,
    logLikelihoodAtZero: atZero.value + shift,
    logLikelihood: top.point.value + shift,
    ...(penalised || "dependent" in startFactor
      ? {}
      : { scoreTest: dot(plainAtZero.score, solve(startFactor, plainAtZero.score)) }),
    steps: top.steps,
    concordance: () => concordanceOf(sets, predicted(), input.cluster),
    unoConcordance: (until = Infinity) =>
      input.entry === undefined && input.stratum === undefined
        ? concordanceOf(sets, predicted(), input.cluster, unoWeights(sets, until))
        : undefined,
    hazard: () => hazardAtZero(rows, top.place, design),
    profile: (name, level) => {
      const j = names.indexOf(name);
      if (j < 0) throw new RangeError(`There is no covariate ${name}; there are ${names.join(", ")}.`);
      const scale = (design.scale[j] as number) || 1;
      const spread = Math.sqrt(within[j * size + j] as number);
      const found = profileTest(objective, top, j, spread, level, penalised);
      return { low: found.low / scale, high: found.high / scale, statistic: found.statistic };
    },
    ...(penalised || ties === "exact"
      ? {}
      : {
          proportional: (
            scale: TimeScale = "kaplan-meier",
            terms: readonly (readonly string[])[] = names.map((n) => [n]),
          ) => proportionalHazards(rows, top.place, within, { design, scale, terms }),
        }),
  };
}

/** x b of every row, without the exponential: equal rows stay equal. */
function linearPredictors(cells: Float64Array, size: number, rows: number, place: Float64Array): Float64Array {
  const scores = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) sum += (cells[i * size + j] as number) * (place[j] as number);
    scores[i] = sum;
  }
  return scores;
}

function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, j) => sum + value * (b[j] as number), 0);
}

/**
 * The log relative hazard of given covariate values against all zero, with its error.
 *   x b, and sqrt(x' V x)
 * Source: Therneau TM, Grambsch PM 2000, ch. 10 (from memory). Example: one covariate at 1: its own coefficient.
 */
export function logRelativeHazard(fit: CoxFit, values: readonly number[]): { value: number; standardError: number } {
  if (values.length !== fit.coefficients.length) {
    throw new RangeError(
      `${values.length} values were given for ${fit.coefficients.length} covariates; give one each.`,
    );
  }
  return {
    value: fit.coefficients.reduce((sum, { value }, j) => sum + value * (values[j] as number), 0),
    standardError: Math.sqrt(bilinear(values, fit.robustVariance ?? fit.variance, values)),
  };
}
