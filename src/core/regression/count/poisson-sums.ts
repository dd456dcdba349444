import type { Covariate } from "../fit/covariate.ts";
import { maximise, type Objective, type Point } from "../fit/newton.ts";
import { addSquares, mirror } from "../linear/gram.ts";
import type { CountRows } from "./count-rows.ts";
import { logFactorials } from "./log-likelihood.ts";
import { type Patterns, patternsOf } from "./patterns.ts";

/** Rows taken at a time, so that their means are still in the nearest cache for the next column. */
const BLOCK = 512;

export interface PoissonSums {
  readonly objective: Objective;
  /** Expected count of every row. */
  readonly means: (place: Float64Array) => Float64Array;
  /** Where to begin: the fit of the patterns' own rates, which costs nothing beside one step over the rows. */
  readonly start: () => Float64Array | undefined;
}

/**
 * Log likelihood of a Poisson regression from sums over patterns.
 *   l = place . X'y + sum y log T - sum m - sum log y!,  U = X'y - X'm,  I = X'MX, whose first column is X'm
 * What the counts give is summed once. A step then costs, for every row, one exponential, the covariates of many values
 * and their squares; the covariates of few values cost a look into a table, and their squares are those of the patterns.
 * Holds: an intercept in the first column. O(rows x others^2 + patterns x size^2) a step.
 * Source: McCullagh P, Nelder JA 1989, 2.5 and 6.2. Example: `poissonRegression`.
 */
export function poissonSums(rows: CountRows, covariates: readonly Covariate[]): PoissonSums {
  const { size, exposure } = rows;
  const found = patternsOf(rows, covariates);
  const { patterns, code, toldColumns, told, otherColumns, other } = found;
  const width = toldColumns.length;
  const free = other.length;
  const counted = countedSums(rows, found);
  const base = new Float64Array(patterns);
  let means = new Float64Array(rows.rows);
  let at: Float64Array | undefined;

  return {
    start: () => fitOfPatterns(rows, found),
    objective: (place): Point | undefined => {
      at = undefined;
      setBase(place);
      const sums = new Float64Array(patterns * (1 + free));
      const squares = new Float64Array(free * free);
      const weighted = new Float64Array(BLOCK);
      for (let from = 0; from < rows.rows; from += BLOCK) {
        const to = Math.min(rows.rows, from + BLOCK);
        meansInto(means, { code, base, exposure, other, otherColumns, place }, from, to);
        addByPattern(sums, 0, code, means, from, from, to);
        for (let j = 0; j < free; j += 1) {
          weigh(weighted, means, other[j] as Float64Array, from, to);
          addByPattern(sums, (1 + j) * patterns, code, weighted, 0, from, to);
          addProducts(squares, j * free, other, j, weighted, from, to);
        }
      }
      at = place;
      return pointOf(place, sums, squares);
    },
    means: (place) => {
      if (at !== place) {
        setBase(place);
        meansInto(means, { code, base, exposure, other, otherColumns, place }, 0, rows.rows);
      }
      const kept = means;
      means = new Float64Array(rows.rows);
      at = undefined;
      return kept;
    },
  };

  function setBase(place: Float64Array): void {
    for (let p = 0; p < patterns; p += 1) {
      let sum = 0;
      for (let k = 0; k < width; k += 1) {
        sum += (told[p * width + k] as number) * (place[toldColumns[k] as number] as number);
      }
      base[p] = sum;
    }
  }

  function pointOf(place: Float64Array, sums: Float64Array, squares: Float64Array): Point | undefined {
    const information = new Float64Array(size * size);
    const add = (a: number, b: number, value: number) => {
      const into = a > b ? a * size + b : b * size + a;
      information[into] = (information[into] as number) + value;
    };
    for (let p = 0; p < patterns; p += 1) {
      const mean = sums[p] as number;
      if (mean === 0) continue;
      for (let k = 0; k < width; k += 1) {
        const value = told[p * width + k] as number;
        const column = toldColumns[k] as number;
        for (let l = 0; l <= k; l += 1) {
          add(column, toldColumns[l] as number, mean * value * (told[p * width + l] as number));
        }
        for (let j = 0; j < free; j += 1) {
          add(column, otherColumns[j] as number, value * (sums[(1 + j) * patterns + p] as number));
        }
      }
    }
    for (let j = 0; j < free; j += 1) {
      for (let k = 0; k <= j; k += 1) {
        add(otherColumns[j] as number, otherColumns[k] as number, squares[j * free + k] as number);
      }
    }
    mirror(information, size);
    let value = counted.constant - (information[0] as number);
    for (let j = 0; j < size; j += 1) value += (counted.score[j] as number) * (place[j] as number);
    const score = counted.score.map((sum, j) => sum - (information[j] as number));
    return Number.isFinite(value) ? { value, score, information } : undefined;
  }
}

interface Predicted extends Pick<Patterns, "code" | "other" | "otherColumns"> {
  readonly base: Float64Array;
  readonly exposure: Float64Array;
  readonly place: Float64Array;
}

/** T exp(x b) of the rows. */
function meansInto(means: Float64Array, predicted: Predicted, from: number, to: number): void {
  const { code, base, exposure, other, otherColumns, place } = predicted;
  for (let i = from; i < to; i += 1) means[i] = base[code[i] as number] as number;
  for (let j = 0; j < other.length; j += 1) {
    const column = other[j] as Float64Array;
    const slope = place[otherColumns[j] as number] as number;
    for (let i = from; i < to; i += 1) means[i] = (means[i] as number) + slope * (column[i] as number);
  }
  for (let i = from; i < to; i += 1) means[i] = (exposure[i] as number) * Math.exp(means[i] as number);
}

function weigh(weighted: Float64Array, means: Float64Array, column: Float64Array, from: number, to: number): void {
  for (let i = from; i < to; i += 1) weighted[i - from] = (means[i] as number) * (column[i] as number);
}

/** Adds the values of rows `from` to `to`, the first of which stands at `first`, to the sums of their patterns. */
function addByPattern(
  sums: Float64Array,
  start: number,
  code: Uint16Array,
  values: Float64Array,
  first: number,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i += 1) {
    const into = start + (code[i] as number);
    sums[into] = (sums[into] as number) + (values[first + i - from] as number);
  }
}

/** Adds the products of a weighted column with itself and those before it: three sums at once, none waiting for another. */
function addProducts(
  squares: Float64Array,
  start: number,
  other: readonly Float64Array[],
  j: number,
  weighted: Float64Array,
  from: number,
  to: number,
): void {
  for (let k = 0; k <= j; k += 3) {
    const first = other[k] as Float64Array;
    const second = other[Math.min(k + 1, j)] as Float64Array;
    const third = other[Math.min(k + 2, j)] as Float64Array;
    let a = 0;
    let b = 0;
    let c = 0;
    for (let i = from; i < to; i += 1) {
      const w = weighted[i - from] as number;
      a += w * (first[i] as number);
      b += w * (second[i] as number);
      c += w * (third[i] as number);
    }
    squares[start + k] = (squares[start + k] as number) + a;
    if (k + 1 <= j) squares[start + k + 1] = (squares[start + k + 1] as number) + b;
    if (k + 2 <= j) squares[start + k + 2] = (squares[start + k + 2] as number) + c;
  }
}

/** X'y, and what of the log likelihood does not change with the place. */
function countedSums(rows: CountRows, found: Patterns): { readonly score: Float64Array; readonly constant: number } {
  const { code, toldColumns, told, otherColumns, other } = found;
  const width = toldColumns.length;
  const score = new Float64Array(rows.size);
  let constant = -logFactorials(rows.count);
  for (let i = 0; i < rows.rows; i += 1) {
    const y = rows.count[i] as number;
    if (y === 0) continue;
    constant += y * Math.log(rows.exposure[i] as number);
    for (let k = 0; k < width; k += 1) {
      const column = toldColumns[k] as number;
      score[column] = (score[column] as number) + y * (told[(code[i] as number) * width + k] as number);
    }
    for (let j = 0; j < other.length; j += 1) {
      const column = otherColumns[j] as number;
      score[column] = (score[column] as number) + y * ((other[j] as Float64Array)[i] as number);
    }
  }
  return { score, constant };
}

/** The fit with every other covariate at its mean, from the counts and the exposure of each pattern. */
function fitOfPatterns(rows: CountRows, { patterns, code, toldColumns, told }: Patterns): Float64Array | undefined {
  const width = toldColumns.length;
  const count = new Float64Array(patterns);
  const exposure = new Float64Array(patterns);
  addByPattern(count, 0, code, rows.count, 0, 0, rows.rows);
  addByPattern(exposure, 0, code, rows.exposure, 0, 0, rows.rows);
  const mean = new Float64Array(patterns);
  const total = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0);
  const objective: Objective = (place) => {
    const score = new Float64Array(width);
    const information = new Float64Array(width * width);
    let value = 0;
    for (let p = 0; p < patterns; p += 1) {
      let predictor = 0;
      for (let k = 0; k < width; k += 1) predictor += (told[p * width + k] as number) * (place[k] as number);
      mean[p] = (exposure[p] as number) * Math.exp(predictor);
      value += (count[p] as number) * predictor - (mean[p] as number);
      for (let k = 0; k < width; k += 1) {
        score[k] =
          (score[k] as number) + (told[p * width + k] as number) * ((count[p] as number) - (mean[p] as number));
      }
    }
    addSquares(information, told, width, { from: 0, to: patterns, weight: mean });
    mirror(information, width);
    return Number.isFinite(value) ? { value, score, information } : undefined;
  };
  const start = new Float64Array(width);
  start[0] = Math.log((total(count) + 0.5) / total(exposure));
  const top = maximise(objective, { start });
  if (top.kind !== "settled") return undefined;
  const place = new Float64Array(rows.size);
  for (let k = 0; k < width; k += 1) place[toldColumns[k] as number] = top.place[k] as number;
  return place;
}
