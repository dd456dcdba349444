import { type Coefficient, coefficientsOf, type Unfitted } from "../fit/answer.ts";
import { maximise, type Objective } from "../fit/newton.ts";
import { cholesky, inverse } from "../linear/cholesky.ts";
import { type CountFit, fitCounts } from "./count-fit.ts";
import {
  type CountInput,
  type CountRows,
  countRows,
  inUnits,
  predictors,
  varianceInUnits,
  weigh,
} from "./count-rows.ts";
import { logFactorials } from "./log-likelihood.ts";

export interface NegativeBinomialFit {
  readonly kind: "fitted";
  readonly coefficients: readonly Coefficient[];
  readonly variance: Float64Array;
  /** Variance of a count is mean + mean^2 / theta. */
  readonly theta: number;
  readonly thetaError: number;
  readonly logLikelihood: number;
  readonly fitted: Float64Array;
  readonly events: number;
  readonly rows: number;
}

/** The counts spread no more than Poisson's: theta has no finite value, and the Poisson fit stands. */
export interface NoExcessSpread {
  readonly kind: "no excess spread";
  readonly poisson: CountFit;
}

const MOST_TURNS = 500;

/**
 * Negative binomial regression: counts that spread more than Poisson's.
 *   log mean = log exposure + x b, variance = mean + mean^2 / theta; b and theta in turn to their common maximum
 * The gamma functions of whole counts are finite sums: log Gamma(theta + y) - log Gamma(theta) = sum log(theta + i).
 * Errors of b from the expected information at theta; of theta from its own curvature.
 * Holds: excess spread, told first by sum of (y - m)^2 - y > 0 at the Poisson fit. RangeError for rows that cannot be
 * used. O(rows + largest count) a turn.
 * Source: Cameron AC, Trivedi PK 1998, 3.3; Venables WN, Ripley BD 2002, 7.4.
 * Example: ten pumps, failures over hours: theta 0.822268.
 */
export function negativeBinomialRegression(input: CountInput): NegativeBinomialFit | NoExcessSpread | Unfitted {
  const poisson = fitCounts(input, "Poisson", "none");
  if (poisson.kind !== "fitted") return poisson;
  const rows = countRows(input);
  const { count } = rows;
  let excess = 0;
  for (let i = 0; i < rows.rows; i += 1) {
    excess += ((count[i] as number) - (poisson.fitted[i] as number)) ** 2 - (count[i] as number);
  }
  if (!(excess > 0)) return { kind: "no excess spread", poisson };
  const above = countsAbove(count);
  const constant = logFactorials(count);
  // moments: excess = sum of m^2 / theta
  let theta = poisson.fitted.reduce((sum, mean) => sum + mean * mean, 0) / excess;
  let place = new Float64Array(rows.size);
  place[0] = Math.log(poisson.events / rows.offset.reduce((sum, offset) => sum + Math.exp(offset), 0));
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const found = maximise(objectiveAt(rows, theta, above, constant), { start: place, penalised: true });
    if (found.kind !== "settled") return { kind: "not settled", steps: turn };
    place = Float64Array.from(found.place);
    const fitted = predictors(rows, place).map(Math.exp);
    const next = bestTheta(theta, count, fitted, above);
    const moved = Math.abs(next.theta - theta) / theta;
    theta = next.theta;
    if (!(theta < 1e10)) return { kind: "no excess spread", poisson };
    if (moved > 1e-11) continue;
    const factor = cholesky(found.point.information, rows.size);
    if ("dependent" in factor) break;
    const variance = varianceInUnits(rows, inverse(factor));
    return {
      kind: "fitted",
      coefficients: coefficientsOf(rows.names, inUnits(rows, place), variance),
      variance,
      theta,
      thetaError: 1 / Math.sqrt(next.curvature),
      logLikelihood: found.point.value,
      fitted,
      events: poisson.events,
      rows: rows.rows,
    };
  }
  return { kind: "not settled", steps: MOST_TURNS };
}

/** How many counts are above 0, 1, 2, ...: sums of log(theta + i) over all rows are then one sum. */
function countsAbove(count: Float64Array): Float64Array {
  const most = count.reduce((a, b) => Math.max(a, b), 0);
  const above = new Float64Array(most);
  for (const y of count) if (y > 0) above[y - 1] = (above[y - 1] as number) + 1;
  for (let i = most - 2; i >= 0; i -= 1) above[i] = (above[i] as number) + (above[i + 1] as number);
  return above;
}

function objectiveAt(rows: CountRows, theta: number, above: Float64Array, constant: number): Objective {
  return (place) => {
    const eta = predictors(rows, place);
    let value = -constant;
    for (let i = 0; i < above.length; i += 1) value += (above[i] as number) * Math.log(theta + i);
    const residual = new Float64Array(rows.rows);
    const weight = new Float64Array(rows.rows);
    for (let i = 0; i < rows.rows; i += 1) {
      const y = rows.count[i] as number;
      const mean = Math.exp(eta[i] as number);
      value += -theta * Math.log1p(mean / theta) + y * ((eta[i] as number) - Math.log(theta + mean));
      residual[i] = ((y - mean) * theta) / (theta + mean);
      weight[i] = (mean * theta) / (theta + mean);
    }
    return Number.isFinite(value) ? { value, ...weigh(rows, residual, weight) } : undefined;
  };
}

/** Newton steps on log theta, halved to stay uphill; the curvature is that of theta itself. */
function bestTheta(
  start: number,
  count: Float64Array,
  fitted: Float64Array,
  above: Float64Array,
): { readonly theta: number; readonly curvature: number } {
  let theta = start;
  let curvature = 0;
  for (let step = 0; step < 100; step += 1) {
    let slope = 0;
    curvature = 0;
    for (let i = 0; i < above.length; i += 1) {
      slope += (above[i] as number) / (theta + i);
      curvature += (above[i] as number) / (theta + i) ** 2;
    }
    for (let i = 0; i < count.length; i += 1) {
      const y = count[i] as number;
      const mean = fitted[i] as number;
      slope += -Math.log1p(mean / theta) + (mean - y) / (theta + mean);
      curvature += 2 / (theta + mean) - 1 / theta - (theta + y) / (theta + mean) ** 2;
    }
    const bend = theta * (curvature * theta - slope); // of the curve against log theta
    const move = bend > 0 ? (theta * slope) / bend : Math.sign(slope);
    const limited = Math.max(-1, Math.min(1, move));
    theta *= Math.exp(limited);
    if (Math.abs(limited) < 1e-13 || theta > 1e10) break;
  }
  return { theta, curvature };
}
