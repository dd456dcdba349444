import { type CumulativeHazard } from "../cox/cumulative-hazard.ts";
import { relativeHazards } from "../cox/sweep.ts";
import { type Coefficient, type CoefficientTest, coefficientsOf, type Unfitted } from "../fit/answer.ts";
import { clusterMiddle } from "../fit/cluster.ts";
import { type Covariate, designOf, unscale, unscaleVariance } from "../fit/covariate.ts";
import { maximise, type Objective } from "../fit/newton.ts";
import { profileTest } from "../fit/profile-limits.ts";
import { cholesky, inverse, sandwich } from "../linear/cholesky.ts";
import { censoringBefore } from "./censoring.ts";
import { type FineGrayRows, fineGrayLikelihood, fineGrayResiduals, sweepSubdistribution } from "./fine-gray-sums.ts";

export interface FineGrayInput {
  readonly exit: ArrayLike<number>;
  /** 0 censored, or the kind of end: 1, 2, ... */
  readonly end: ArrayLike<number>;
  readonly covariates: readonly Covariate[];
  /** Who the rows belong to; absent means each row by itself. */
  readonly cluster?: ArrayLike<number>;
}

export interface FineGrayFit {
  readonly kind: "fitted";
  /** Errors from the sandwich that allows for the censoring curve being estimated. */
  readonly coefficients: readonly Coefficient[];
  readonly variance: Float64Array;
  readonly events: number;
  readonly rows: number;
  readonly logLikelihoodAtZero: number;
  readonly logLikelihood: number;
  /** Subdistribution hazard of a row whose covariates are all zero: incidence = 1 - exp(-H0(t) exp(x b)). */
  readonly hazard: () => CumulativeHazard;
  readonly profile: (name: string, level: number) => CoefficientTest;
  readonly steps: number;
}

/**
 * Fine and Gray's regression of the cumulative incidence of one kind of end.
 *   subdistribution hazard = h0(t) exp(x b); a row with a competing end at T stays in the risk set at u > T with weight
 *   G(u-) / G(T-), G the Kaplan-Meier curve of censoring, left limits at both times; Breslow's ties
 * Report it beside the hazards of each kind (`coxRegression`), never alone: the two may differ in sign.
 * Holds: no delayed entry; censoring alike whatever the covariates. RangeError for rows that cannot be used; no
 * events, collinear columns and a likelihood that rises for ever come back by name. O(rows x covariates^2) a step.
 * Source: Fine JP, Gray RJ 1999, J Am Stat Assoc 94:496.
 * Example: mgus2, plasma-cell malignancy, age + male + spike: -0.0169425, -0.2136160, 0.8884641.
 */
export function fineGray(input: FineGrayInput, kind: number): FineGrayFit | Unfitted {
  const censoring = censoringBefore(input.exit, input.end);
  const design = designOf(input.covariates, input.exit.length, censoring.order);
  const { size, names, cells } = design;
  const rows: FineGrayRows = { censoring, kind, size, cells, places: placesOf(censoring, kind) };
  if (rows.places.length === 0) return { kind: "no events" };
  const objective: Objective = (place) => fineGrayLikelihood(rows, place);
  const zero = new Float64Array(size);
  const atZero = objective(zero);
  if (atZero === undefined) return { kind: "not settled", steps: 0 };
  const top = maximise(objective, { start: zero, known: atZero });
  if (top.kind === "dependent") return { kind: "collinear", covariates: [names[top.column] as string] };
  if (top.kind === "running off") {
    const covariates = top.columns.map((j) => names[j] as string);
    return { kind: "separated", covariates, logLikelihood: top.point.value };
  }
  if (top.kind === "not settled") return { kind: "not settled", steps: top.steps };
  const factor = cholesky(top.point.information, size);
  if ("dependent" in factor) return { kind: "collinear", covariates: [names[factor.dependent] as string] };
  const within = inverse(factor);
  const { cluster: given } = input;
  const cluster = given === undefined ? undefined : Float64Array.from(censoring.order, (row) => given[row] as number);
  const middle = clusterMiddle(fineGrayResiduals(rows, top.place), size, cluster);
  const variance = unscaleVariance(design, sandwich(within, middle, size));
  return {
    kind: "fitted",
    coefficients: coefficientsOf(names, unscale(design, top.place), variance),
    variance,
    events: rows.places.reduce((sum, place) => sum + place.events.length, 0),
    rows: design.rows,
    logLikelihoodAtZero: atZero.value,
    logLikelihood: top.point.value,
    hazard: () => hazardAtZero(rows, top.place, design),
    profile: (name, level) => {
      const j = names.indexOf(name);
      if (j < 0) throw new RangeError(`There is no covariate ${name}; there are ${names.join(", ")}.`);
      const scale = (design.scale[j] as number) || 1;
      const found = profileTest(objective, top, j, Math.sqrt(within[j * size + j] as number), level, false);
      return { low: found.low / scale, high: found.high / scale, statistic: found.statistic };
    },
    steps: top.steps,
  };
}

function placesOf(censoring: FineGrayRows["censoring"], kind: number): FineGrayRows["places"] {
  const places: { from: number; events: number[]; before: number }[] = [];
  const n = censoring.exit.length;
  for (let k = 0; k < n;) {
    const events: number[] = [];
    let last = k;
    for (; last < n && censoring.exit[last] === censoring.exit[k]; last += 1) {
      if (censoring.end[last] === kind) events.push(last);
    }
    if (events.length > 0) places.push({ from: k, events, before: censoring.before[k] as number });
    k = last;
  }
  return places;
}

function hazardAtZero(rows: FineGrayRows, place: Float64Array, design: ReturnType<typeof designOf>): CumulativeHazard {
  const { size, cells, places, censoring } = rows;
  const hazard = new Float64Array(places.length);
  // only the sum of theta is wanted
  sweepSubdistribution({ ...rows, size: 0 }, relativeHazards(cells, size, place), (p, sums) => {
    hazard[p] = (places[p] as FineGrayRows["places"][number]).events.length / (sums[0] as number);
  });
  let centre = 0;
  for (let j = 0; j < size; j += 1) {
    centre += ((place[j] as number) * (design.centre[j] as number)) / ((design.scale[j] as number) || 1);
  }
  let sum = 0;
  for (let p = 0; p < hazard.length; p += 1) {
    sum += (hazard[p] as number) * Math.exp(-centre);
    hazard[p] = sum;
  }
  return {
    stratum: new Float64Array(places.length),
    time: Float64Array.from(places, (at) => censoring.exit[at.from] as number),
    hazard,
  };
}
