import { momentsInto, momentsOf, type Moments } from "../cox/partial-likelihood.ts";
import { relativeHazards, sumsSize } from "../cox/sweep.ts";
import type { Point } from "../fit/newton.ts";
import type { Censoring } from "./censoring.ts";

export interface FineGrayRows {
  readonly censoring: Censoring;
  readonly kind: number;
  readonly size: number;
  /** Covariates in the order of the censoring's rows. */
  readonly cells: Float64Array;
  /** Distinct times with an end of the kind, ascending: first row at the time, rows that end so, G just before. */
  readonly places: readonly { readonly from: number; readonly events: readonly number[]; readonly before: number }[];
}

/** Whether a row ended otherwise, and so stays in the risk set with a falling weight. */
const competing = (rows: FineGrayRows, k: number): boolean => {
  const end = rows.censoring.end[k] as number;
  return end !== 0 && end !== rows.kind;
};

/**
 * Hands over the sums of every subdistribution risk set, latest time first.
 *   rows with exit >= u, and rows with a competing end before u at weight G(u-) / G(T-)
 * The first part is gathered from the back; the second from the front in an earlier pass, which keeps its sums at each
 * event time. So every row is added twice, whatever the number of times: O(rows x size^2).
 * Source: Kawaguchi ES and others 2021, R J 12:163 (forward and backward scan, from memory).
 */
export function sweepSubdistribution(
  rows: FineGrayRows,
  theta: Float64Array,
  visit: (place: number, sums: Float64Array) => void,
): void {
  const { size, places, censoring } = rows;
  const length = sumsSize(size, false);
  const kept = new Float64Array(places.length * length);
  const sums = new Float64Array(length);
  let row = 0;
  for (let p = 0; p < places.length; p += 1) {
    const { from, before } = places[p] as FineGrayRows["places"][number];
    for (; row < from; row += 1) {
      if (competing(rows, row)) add(sums, rows, row, (theta[row] as number) / (censoring.before[row] as number));
    }
    for (let k = 0; k < length; k += 1) kept[p * length + k] = before * (sums[k] as number);
  }
  sums.fill(0);
  const whole = new Float64Array(length);
  row = censoring.exit.length - 1;
  for (let p = places.length - 1; p >= 0; p -= 1) {
    const { from } = places[p] as FineGrayRows["places"][number];
    for (; row >= from; row -= 1) add(sums, rows, row, theta[row] as number);
    for (let k = 0; k < length; k += 1) whole[k] = (sums[k] as number) + (kept[p * length + k] as number);
    visit(p, whole);
  }
}

function add(sums: Float64Array, rows: FineGrayRows, row: number, weight: number): void {
  const { size, cells } = rows;
  sums[0] = (sums[0] as number) + weight;
  let at = 1 + size;
  for (let j = 0; j < size; j += 1) {
    const weighted = weight * (cells[row * size + j] as number);
    sums[1 + j] = (sums[1 + j] as number) + weighted;
    for (let k = 0; k <= j; k += 1, at += 1) {
      sums[at] = (sums[at] as number) + weighted * (cells[row * size + k] as number);
    }
  }
}

/** Log pseudo likelihood of the subdistribution hazard with Breslow's ties, its gradient and information. */
export function fineGrayLikelihood(rows: FineGrayRows, place: Float64Array): Point | undefined {
  const { size, cells, places } = rows;
  const theta = relativeHazards(cells, size, place);
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  const moments: Moments = momentsOf(size);
  let value = 0;
  sweepSubdistribution(rows, theta, (p, sums) => {
    const { events } = places[p] as FineGrayRows["places"][number];
    momentsInto(sums, size, moments);
    value -= events.length * Math.log(sums[0] as number);
    for (const row of events) {
      for (let j = 0; j < size; j += 1) {
        const x = cells[row * size + j] as number;
        value += x * (place[j] as number);
        score[j] = (score[j] as number) + x - (moments.mean[j] as number);
      }
    }
    for (let at = 0; at < information.length; at += 1) {
      information[at] = (information[at] as number) + events.length * (moments.spread[at] as number);
    }
  });
  return Number.isFinite(value) ? { value, score, information } : undefined;
}

/**
 * What every row adds to the score when the censoring curve is itself estimated, in the order of the censoring's rows.
 *   eta_i = integral of (x_i - mean(u)) w_i(u) dM_i(u)
 *   psi_i = integral of q(c) / at risk(c) dM^c_i(c), q(c) = sum over rows with a competing end before c of
 *           exp(x b) / G(T-) integral over u >= c of (x - mean(u)) G(u-) dH(u)
 * All integrals are running sums over ordered times: O(rows x size).
 * Source: Fine and Gray 1999, section 4 and appendix.
 */
export function fineGrayResiduals(rows: FineGrayRows, place: Float64Array): Float64Array {
  const { size, cells, places, censoring } = rows;
  const n = censoring.exit.length;
  const theta = relativeHazards(cells, size, place);
  const width = 1 + size;
  const count = places.length;
  const means = new Float64Array(count * size);
  const hazard = new Float64Array(count);
  sweepSubdistribution(rows, theta, (p, sums) => {
    const { events } = places[p] as FineGrayRows["places"][number];
    hazard[p] = events.length / (sums[0] as number);
    for (let j = 0; j < size; j += 1) means[p * size + j] = (sums[1 + j] as number) / (sums[0] as number);
  });
  // up to place p: hazard, and hazard x mean; from place p on: the same weighted by G(u-)
  const upTo = new Float64Array((count + 1) * width);
  const after = new Float64Array((count + 1) * width);
  const stepAt = (p: number, k: number) => (hazard[p] as number) * (k === 0 ? 1 : (means[p * size + k - 1] as number));
  for (let p = 0; p < count; p += 1) {
    for (let k = 0; k < width; k += 1) upTo[(p + 1) * width + k] = (upTo[p * width + k] as number) + stepAt(p, k);
  }
  for (let p = count - 1; p >= 0; p -= 1) {
    const { before } = places[p] as FineGrayRows["places"][number];
    for (let k = 0; k < width; k += 1) {
      after[p * width + k] = (after[(p + 1) * width + k] as number) + before * stepAt(p, k);
    }
  }
  const residuals = new Float64Array(n * size);
  // sum of theta / G(T-) and of the same times x over competing ends so far, and the running integral of censoring
  const gone = new Float64Array(width);
  const drift = new Float64Array(size);
  const pull = new Float64Array(size); // q(c) over the number at risk
  let later = 0; // first place with a time after the present one
  for (let k = 0; k < n;) {
    const now = censoring.exit[k] as number;
    const atRisk = n - k;
    let last = k;
    let censored = 0;
    for (; last < n && censoring.exit[last] === now; last += 1) if (censoring.end[last] === 0) censored += 1;
    for (let j = 0; j < size; j += 1) {
      pull[j] =
        ((gone[1 + j] as number) * (after[later * width] as number) -
          (gone[0] as number) * (after[later * width + 1 + j] as number)) /
        atRisk;
      drift[j] = (drift[j] as number) + ((pull[j] as number) * censored) / atRisk;
    }
    const place = places[later];
    if (place !== undefined && censoring.exit[place.from] === now) later += 1;
    for (let row = k; row < last; row += 1) {
      const end = censoring.end[row] as number;
      const weight = competing(rows, row) ? (theta[row] as number) / (censoring.before[row] as number) : 0;
      gone[0] = (gone[0] as number) + weight;
      for (let j = 0; j < size; j += 1) {
        const x = cells[row * size + j] as number;
        gone[1 + j] = (gone[1 + j] as number) + weight * x;
        residuals[row * size + j] =
          (end === rows.kind ? x - (means[(later - 1) * size + j] as number) : 0) -
          (theta[row] as number) * (x * (upTo[later * width] as number) - (upTo[later * width + 1 + j] as number)) -
          weight * (x * (after[later * width] as number) - (after[later * width + 1 + j] as number)) +
          (end === 0 ? (pull[j] as number) : 0) -
          (drift[j] as number);
      }
    }
    k = last;
  }
  return residuals;
}
