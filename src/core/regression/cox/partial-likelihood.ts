import type { Point } from "../fit/newton.ts";
import { cholesky, inverse, logDeterminant } from "../linear/cholesky.ts";
import { addSquares, mirror } from "../linear/gram.ts";
import { chosenSum } from "./exact-ties.ts";
import type { RiskSets } from "./risk-sets.ts";
import { pairAt, relativeHazards, type Sums, sweep, type Ties } from "./sweep.ts";

export interface CoxRows {
  readonly sets: RiskSets;
  readonly size: number;
  /** In the layout of the risk sets. */
  readonly cells: Float64Array;
  readonly ties: Ties;
  /** Two numbers a row to work in: a fit asks for the likelihood many times. */
  readonly room: { readonly theta: Float64Array; readonly hazard: Float64Array };
}

/** Mean and covariance of the covariates over a risk set. */
export interface Moments {
  readonly mean: Float64Array;
  readonly spread: Float64Array;
}

export function momentsInto(sums: Sums, size: number, into: Moments): void {
  const total = sums[0] as number;
  for (let j = 0; j < size; j += 1) into.mean[j] = (sums[1 + j] as number) / total;
  for (let j = 0; j < size; j += 1) {
    for (let k = 0; k <= j; k += 1) {
      const value = (sums[pairAt(size, j, k)] as number) / total - (into.mean[j] as number) * (into.mean[k] as number);
      into.spread[j * size + k] = value;
      into.spread[k * size + j] = value;
    }
  }
}

export const momentsOf = (size: number): Moments => ({
  mean: new Float64Array(size),
  spread: new Float64Array(size * size),
});

/**
 * Log partial likelihood with its gradient and information, Efron, Breslow or exact ties.
 *   l = sum over events of x b - log sum over the risk set of exp(x b)
 * Source: Cox DR 1972, J R Stat Soc B 34:187. Example: `coxRegression`.
 */
export function partialLikelihood(rows: CoxRows, place: Float64Array): Point | undefined {
  return rows.ties === "exact" ? exactLikelihood(rows, place) : summedLikelihood(rows, place);
}

/** Sum over the events of x, and of x b. */
function overEvents({ sets, size, cells }: CoxRows, place: Float64Array): { sum: Float64Array; value: number } {
  const sum = new Float64Array(size);
  let value = 0;
  for (let p = 0; p < sets.places; p += 1) {
    for (let row = sets.deaths[p] as number; row < (sets.deathsEnd[p] as number); row += 1) {
      for (let j = 0; j < size; j += 1) {
        const x = cells[row * size + j] as number;
        sum[j] = (sum[j] as number) + x;
        value += x * (place[j] as number);
      }
    }
  }
  return { sum, value };
}

/**
 * Efron or Breslow ties with the sums turned round: every row is squared once, not once for every risk set's sums.
 *   I = sum over rows of theta H x x' - sum over events of mean mean', U = sum over events of x - mean
 *   H of a row: the steps d / sum theta over the event times it was at risk at, thinned for its own tied events
 * The risk sets then need only theta and theta x.
 */
function summedLikelihood(rows: CoxRows, place: Float64Array): Point | undefined {
  const { sets, size, cells, ties, room } = rows;
  const theta = relativeHazards(cells, size, place, room.theta);
  const { sum: score, value: events } = overEvents(rows, place);
  const means = new Float64Array(size * size);
  const mean = new Float64Array(size);
  const steps = new Float64Array(sets.places);
  const spared = new Float64Array(sets.places); // what a tied event is left out of
  let value = events;
  sweep(sets, { size, cells, theta, meansOnly: true }, ties, (p, weight, sums, thinning) => {
    const total = sums[0] as number;
    const step = weight / total;
    value -= weight * Math.log(total);
    steps[p] = (steps[p] as number) + step;
    spared[p] = (spared[p] as number) + thinning * step;
    for (let j = 0; j < size; j += 1) {
      const here = (sums[1 + j] as number) / total;
      mean[j] = here;
      score[j] = (score[j] as number) - weight * here;
      for (let k = 0; k <= j; k += 1) {
        means[j * size + k] = (means[j * size + k] as number) + weight * here * (mean[k] as number);
      }
    }
  });
  if (!Number.isFinite(value)) return undefined;
  const weight = hazardWeights(rows, steps, spared);
  const information = new Float64Array(size * size);
  addSquares(information, cells, size, { from: 0, to: sets.rows, weight });
  for (let at = 0; at < information.length; at += 1) {
    information[at] = (information[at] as number) - (means[at] as number);
  }
  mirror(information, size);
  return { value, score, information };
}

/** Theta times the hazard each row was at risk of. Places run by stratum and falling time, and so do the rows. */
function hazardWeights({ sets, room }: CoxRows, steps: Float64Array, spared: Float64Array): Float64Array {
  const upTo = Float64Array.from(steps); // over the stratum, from its earliest time to the time of the place
  for (let p = sets.places - 2; p >= 0; p -= 1) {
    if (sets.first[p] === sets.first[p + 1]) upTo[p] = (upTo[p] as number) + (upTo[p + 1] as number);
  }
  const { theta, hazard } = room;
  hazard.fill(0);
  let row = 0;
  let left = 0;
  for (let p = 0; p < sets.places; p += 1) {
    const first = sets.first[p] as number;
    if (p === 0 || sets.first[p - 1] !== first) {
      row = first;
      left = first;
    }
    const here = upTo[p] as number;
    for (; row < (sets.joined[p] as number); row += 1) hazard[row] = here;
    for (let tied = sets.deaths[p] as number; tied < (sets.deathsEnd[p] as number); tied += 1) {
      hazard[tied] = (hazard[tied] as number) - (spared[p] as number);
    }
    // these entered at or after this time: what came up to it was not theirs
    for (; left < (sets.left[p] as number); left += 1) {
      const late = sets.leaving[left] as number;
      hazard[late] = (hazard[late] as number) - here;
    }
  }
  for (let i = 0; i < sets.rows; i += 1) hazard[i] = (hazard[i] as number) * (theta[i] as number);
  return hazard;
}

/** Tied events chosen among the risk set in every way: the sums of every risk set are wanted whole. */
function exactLikelihood(rows: CoxRows, place: Float64Array): Point | undefined {
  const { sets, size, cells, ties } = rows;
  const theta = relativeHazards(cells, size, place);
  const moments = momentsOf(size);
  const { sum: score, value: events } = overEvents(rows, place);
  const information = new Float64Array(size * size);
  let value = events;
  const take = (log: number, weight: number, { mean, spread }: Moments) => {
    value -= weight * log;
    for (let j = 0; j < size; j += 1) score[j] = (score[j] as number) - weight * (mean[j] as number);
    for (let at = 0; at < spread.length; at += 1) {
      information[at] = (information[at] as number) + weight * (spread[at] as number);
    }
  };
  sweep(sets, { size, cells, theta }, ties, (p, weight, sums) => {
    if (weight > 1) {
      const chosen = chosenSum(riskSetAt(sets, p), weight, theta, cells, size);
      take(chosen.log, 1, chosen);
      return;
    }
    momentsInto(sums, size, moments);
    take(Math.log(sums[0] as number), weight, moments);
  });
  return Number.isFinite(value) ? { value, score, information } : undefined;
}

/** Rows of the layout at risk at one event time. */
export function riskSetAt(sets: RiskSets, place: number): number[] {
  const time = sets.time[place] as number;
  const rows: number[] = [];
  for (let row = sets.first[place] as number; row < (sets.joined[place] as number); row += 1) {
    if (sets.entry === undefined || (sets.entry[row] as number) < time) rows.push(row);
  }
  return rows;
}

/**
 * The partial likelihood penalised by half the log determinant of its information.
 *   l*(b) = l(b) + log |I(b)| / 2, gradient U_r + tr(I^-1 dI/db_r) / 2
 * The third moments the trace needs are gathered in a second sweep, where q = x' I^-1 x makes them cost no more than
 * the second.
 * Holds: Efron or Breslow ties; undefined where the information is not positive definite.
 * Source: Heinze G, Schemper M 2001, Biometrics 57:114. Example: `firthCox`.
 */
export function penalisedPartialLikelihood(rows: CoxRows, place: Float64Array): Point | undefined {
  const plain = partialLikelihood(rows, place);
  if (plain === undefined) return undefined;
  const { sets, size, cells, ties } = rows;
  const factor = cholesky(plain.information, size);
  if ("dependent" in factor) return undefined;
  const within = inverse(factor);
  const theta = relativeHazards(cells, size, place);
  const extra = new Float64Array(sets.rows);
  for (let row = 0; row < sets.rows; row += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      for (let k = 0; k < size; k += 1) {
        sum += (cells[row * size + j] as number) * (within[j * size + k] as number) * (cells[row * size + k] as number);
      }
    }
    extra[row] = sum;
  }
  const moments = momentsOf(size);
  const score = Float64Array.from(plain.score);
  const tail = pairAt(size, size, 0);
  sweep(sets, { size, cells, theta, extra }, ties, (_, weight, sums) => {
    momentsInto(sums, size, moments);
    const total = sums[0] as number;
    const q = (sums[tail] as number) / total;
    for (let r = 0; r < size; r += 1) {
      let third = (sums[tail + 1 + r] as number) / total - (moments.mean[r] as number) * q;
      for (let j = 0; j < size; j += 1) {
        let bent = 0;
        for (let k = 0; k < size; k += 1) bent += (within[j * size + k] as number) * (moments.mean[k] as number);
        third -= 2 * bent * (moments.spread[j * size + r] as number);
      }
      score[r] = (score[r] as number) + (weight * third) / 2;
    }
  });
  return { value: plain.value + logDeterminant(factor) / 2, score, information: plain.information };
}
