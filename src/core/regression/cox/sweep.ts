import type { RiskSets } from "./risk-sets.ts";

export type Ties = "efron" | "breslow" | "exact";

/**
 * Sums over a risk set, theta the relative hazard of a row:
 *   [0] theta; [1 ..] theta x; then theta x_j x_k for k <= j; and with `extra` q: theta q; theta q x
 */
export type Sums = Float64Array;

export const sumsSize = (size: number, extra: boolean): number =>
  1 + size + (size * (size + 1)) / 2 + (extra ? 1 + size : 0);

/** Where theta x_j x_k stands in the sums, k <= j. */
export const pairAt = (size: number, j: number, k: number): number => 1 + size + (j * (j + 1)) / 2 + k;

/** Called for every event time, `weight` times alike; with Efron's ties once for each tied event, thinned. */
export type Visit = (place: number, weight: number, sums: Sums, thinning: number) => void;

export interface Weighted {
  readonly size: number;
  /** Covariates row after row, in the layout of the risk sets. */
  readonly cells: Float64Array;
  readonly theta: Float64Array;
  readonly extra?: Float64Array;
  /** Only theta and theta x are wanted: the rest of the sums stays zero. */
  readonly meansOnly?: boolean;
}

/**
 * Goes down the event times once and hands over the sums of every risk set: rows are added as their exit is passed and
 * taken off as their entry is. With Efron's ties the sums of the l-th of d tied events leave out l / d of the tied rows.
 * O(rows x size^2). Source: Efron B 1977, J Am Stat Assoc 72:557; Breslow N 1974, Biometrics 30:89.
 */
export function sweep(sets: RiskSets, rows: Weighted, ties: Ties, visit: Visit): void {
  const { size, extra } = rows;
  const length = rows.meansOnly === true ? 1 + size : sumsSize(size, extra !== undefined);
  const sums = new Float64Array(length);
  const tied = new Float64Array(length);
  const thinned = new Float64Array(length);
  let joined = 0;
  let left = 0;
  let first = -1;
  for (let place = 0; place < sets.places; place += 1) {
    if (sets.first[place] !== first) {
      first = sets.first[place] as number;
      joined = first;
      left = first;
      sums.fill(0);
    }
    for (; joined < (sets.joined[place] as number); joined += 1) addRow(sums, rows, joined, 1);
    for (; left < (sets.left[place] as number); left += 1) addRow(sums, rows, sets.leaving[left] as number, -1);
    const from = sets.deaths[place] as number;
    const count = (sets.deathsEnd[place] as number) - from;
    if (count === 1 || ties !== "efron") {
      visit(place, count, sums, 0);
      continue;
    }
    tied.fill(0);
    for (let row = from; row < from + count; row += 1) addRow(tied, rows, row, 1);
    for (let l = 0; l < count; l += 1) {
      const thinning = l / count;
      for (let k = 0; k < length; k += 1) thinned[k] = (sums[k] as number) - thinning * (tied[k] as number);
      visit(place, 1, thinned, thinning);
    }
  }
}

function addRow(sums: Sums, rows: Weighted, row: number, sign: 1 | -1): void {
  const { size, cells, extra } = rows;
  const theta = sign * (rows.theta[row] as number);
  const start = row * size;
  sums[0] = (sums[0] as number) + theta;
  if (rows.meansOnly === true) {
    for (let j = 0; j < size; j += 1) sums[1 + j] = (sums[1 + j] as number) + theta * (cells[start + j] as number);
    return;
  }
  let at = 1 + size;
  for (let j = 0; j < size; j += 1) {
    const weighted = theta * (cells[start + j] as number);
    sums[1 + j] = (sums[1 + j] as number) + weighted;
    for (let k = 0; k <= j; k += 1, at += 1) sums[at] = (sums[at] as number) + weighted * (cells[start + k] as number);
  }
  if (extra === undefined) return;
  const weighted = theta * (extra[row] as number);
  sums[at] = (sums[at] as number) + weighted;
  for (let j = 0; j < size; j += 1) {
    sums[at + 1 + j] = (sums[at + 1 + j] as number) + weighted * (cells[start + j] as number);
  }
}

/** exp(x b) for every row. */
export function relativeHazards(
  cells: Float64Array,
  size: number,
  place: ArrayLike<number>,
  theta: Float64Array = new Float64Array(size > 0 ? cells.length / size : 0),
): Float64Array {
  const rows = theta.length;
  for (let i = 0; i < rows; i += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) sum += (cells[i * size + j] as number) * (place[j] as number);
    theta[i] = Math.exp(sum);
  }
  return theta;
}
