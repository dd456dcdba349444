import { type Coefficient, coefficientsOf, type Unfitted } from "../fit/answer.ts";
import { maximise, type Point } from "../fit/newton.ts";
import { rootBetween } from "../fit/root.ts";
import { cholesky, inverse } from "../linear/cholesky.ts";
import { type CountFit, fitCounts } from "./count-fit.ts";
import { type CountInput, type CountRows, countRows, inUnits, varianceInUnits } from "./count-rows.ts";
import { logFactorials } from "./log-likelihood.ts";

export interface MixedPoissonFit {
  readonly kind: "fitted";
  /** The intercept first; for one patient. Errors with the spread between patients taken as known. */
  readonly coefficients: readonly Coefficient[];
  readonly variance: Float64Array;
  /** Standard deviation, on the log scale, of what patients differ by. */
  readonly spread: number;
  readonly logLikelihood: number;
  readonly events: number;
  readonly clusters: number;
}

/** The patients differ no more than by chance: the plain fit stands. */
export interface NoSpread {
  readonly kind: "no spread";
  readonly poisson: CountFit;
}

interface Clustered {
  readonly rows: CountRows;
  readonly of: Uint32Array;
  readonly clusters: number;
  readonly constant: number;
}

const LEAST = 0.01;
const MOST = 20;

/**
 * Poisson regression in which the rows of a cluster share a normal deviation of the log rate.
 *   log mean = log exposure + x b + u_j, u_j normal with mean 0 and standard deviation s
 *   l = sum over clusters of max over u of (log likelihood - u^2 / 2 s^2) - log(1 + s^2 M) / 2, M the sum of the means
 * This is Laplace's method: exact as clusters grow, near enough for a few lines a patient.
 * Holds: a cluster for every row, else RangeError; no events, collinear columns and separation come back by name.
 * Source: Breslow NE, Clayton DG 1993, J Am Stat Assoc 88:9; Pinheiro JC, Bates DM 1995 (both from memory).
 * Example: dialysis catheters, two a patient: sex -1.36145, spread 0.58482.
 */
export function mixedPoisson(
  input: CountInput & { readonly cluster: ArrayLike<number> },
): MixedPoissonFit | NoSpread | Unfitted {
  const poisson = fitCounts(input, "Poisson", "none");
  if (poisson.kind !== "fitted") return poisson;
  const clustered = clusteredRows(input);
  const { rows } = clustered;
  let place = new Float64Array(rows.size);
  place[0] = Math.log(poisson.events / rows.exposure.reduce((sum, time) => sum + time, 0));
  const fitAt = (spread: number) => {
    const top = maximise((at) => laplace(clustered, at, spread)?.point, { start: place, penalised: true });
    if (top.kind !== "settled") return undefined;
    place = Float64Array.from(top.place);
    return top;
  };
  const slopeAt = (spread: number): number =>
    fitAt(spread) === undefined ? Number.NaN : (laplace(clustered, place, spread)?.slope ?? Number.NaN);
  let low = LEAST;
  if (!(slopeAt(low) > 0)) return { kind: "no spread", poisson };
  let high = 2 * low;
  while (slopeAt(high) > 0) {
    low = high;
    high *= 2;
    if (high > MOST) return { kind: "not settled", steps: 0 };
  }
  const spread = rootBetween(slopeAt, low, high);
  const top = fitAt(spread);
  if (top === undefined) return { kind: "not settled", steps: 0 };
  const factor = cholesky(top.point.information, rows.size);
  if ("dependent" in factor) return { kind: "collinear", covariates: [rows.names[factor.dependent] as string] };
  const variance = varianceInUnits(rows, inverse(factor));
  return {
    kind: "fitted",
    coefficients: coefficientsOf(rows.names, inUnits(rows, top.place), variance),
    variance,
    spread,
    logLikelihood: top.point.value,
    events: poisson.events,
    clusters: clustered.clusters,
  };
}

function clusteredRows(input: CountInput & { readonly cluster: ArrayLike<number> }): Clustered {
  const rows = countRows(input);
  const codes = new Map<number, number>();
  const of = new Uint32Array(rows.rows);
  for (let i = 0; i < rows.rows; i += 1) {
    const code = input.cluster[i] as number;
    if (!codes.has(code)) codes.set(code, codes.size);
    of[i] = codes.get(code) as number;
  }
  return { rows, of, clusters: codes.size, constant: logFactorials(rows.count) };
}

/** The likelihood at given coefficients and spread, its slopes along both, and the information the steps go by. */
function laplace(
  { rows, of, clusters, constant }: Clustered,
  place: Float64Array,
  spread: number,
): { readonly point: Point; readonly slope: number } | undefined {
  const { size, cells, count, exposure } = rows;
  const square = spread * spread;
  const events = new Float64Array(clusters);
  const expected = new Float64Array(clusters); // at u = 0
  const mean = new Float64Array(rows.rows);
  let value = -constant;
  for (let i = 0; i < rows.rows; i += 1) {
    let predictor = Math.log(exposure[i] as number);
    for (let j = 0; j < size; j += 1) predictor += (cells[i * size + j] as number) * (place[j] as number);
    mean[i] = Math.exp(predictor);
    value += (count[i] as number) * predictor;
    events[of[i] as number] = (events[of[i] as number] as number) + (count[i] as number);
    expected[of[i] as number] = (expected[of[i] as number] as number) + (mean[i] as number);
  }
  const deviation = Float64Array.from(events, (y, j) => bestDeviation(y, expected[j] as number, square));
  const sums = new Float64Array(clusters * size); // of m x
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  for (let i = 0; i < rows.rows; i += 1) {
    const j = of[i] as number;
    const here = (mean[i] as number) * Math.exp(deviation[j] as number);
    for (let a = 0; a < size; a += 1) {
      const x = cells[i * size + a] as number;
      score[a] = (score[a] as number) + ((count[i] as number) - here) * x;
      sums[j * size + a] = (sums[j * size + a] as number) + here * x;
      for (let b = 0; b < size; b += 1) {
        const at = a * size + b;
        information[at] = (information[at] as number) + here * x * (cells[i * size + b] as number);
      }
    }
  }
  let slope = 0;
  for (let j = 0; j < clusters; j += 1) {
    const u = deviation[j] as number;
    const m = (expected[j] as number) * Math.exp(u);
    const widened = 1 + square * m;
    value += (events[j] as number) * u - m - (u * u) / (2 * square) - Math.log(widened) / 2;
    // along log s: of the prior, of the determinant, and of the deviation that moves with s
    slope += (u * u) / square - (square * m) / widened - (square * m * u) / widened ** 2;
    for (let a = 0; a < size; a += 1) {
      const sum = sums[j * size + a] as number;
      score[a] = (score[a] as number) - (square * sum) / (2 * widened ** 2);
      for (let b = 0; b < size; b += 1) {
        const at = a * size + b;
        information[at] = (information[at] as number) - (square * sum * (sums[j * size + b] as number)) / widened;
      }
    }
  }
  return Number.isFinite(value) ? { point: { value, score, information }, slope } : undefined;
}

/** The u with y - M e^u = u / s^2, by Newton steps from a place where the curve only bends one way. */
function bestDeviation(events: number, expected: number, square: number): number {
  let u = Math.min(square * events, Math.max(0, Math.log((events + 1) / expected)));
  for (let step = 0; step < 200; step += 1) {
    const m = expected * Math.exp(u);
    const move = (events - m - u / square) / (m + 1 / square);
    u += Math.max(-2, Math.min(2, move));
    if (Math.abs(move) < 1e-14 * (1 + Math.abs(u))) break;
  }
  return u;
}
