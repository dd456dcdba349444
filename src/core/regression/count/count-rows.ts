import { cellsOf, type Covariate, type Scales, scalesOf } from "../fit/covariate.ts";
import { addSquares, mirror } from "../linear/gram.ts";

/** Rows of a regression with an intercept: the count or outcome, and the time it was watched. */
export interface CountInput {
  /** Whole numbers of zero or more; 0 or 1 for an outcome. */
  readonly count: ArrayLike<number>;
  /** Time at risk of the row, above zero, in one unit; absent means one each. */
  readonly exposure?: ArrayLike<number>;
  readonly covariates: readonly Covariate[];
  /** Who the rows belong to: the patient, for several lines of one patient. */
  readonly cluster?: ArrayLike<number>;
}

export interface CountRows {
  readonly rows: number;
  /** Intercept and covariates. */
  readonly size: number;
  readonly names: readonly string[];
  /** 1 and the scaled covariates, row after row; laid out when first asked for. */
  readonly cells: Float64Array;
  readonly count: Float64Array;
  readonly exposure: Float64Array;
  /** Logarithms of the exposure, taken when first asked for. */
  readonly offset: Float64Array;
  readonly design: Scales;
}

/** RangeError, with the row, for a count, exposure or covariate that cannot be used. */
export function countRows(input: CountInput): CountRows {
  const rows = input.count.length;
  const { exposure, cluster } = input;
  for (const [name, values] of Object.entries({ exposure, cluster })) {
    if (values !== undefined && values.length !== rows) {
      throw new RangeError(`There are ${rows} counts and ${values.length} of ${name}; give one of each for every row.`);
    }
  }
  const design = scalesOf(input.covariates, rows);
  const size = design.size + 1;
  const count = new Float64Array(rows);
  const times = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    const here = input.count[i] as number;
    const time = exposure?.[i] ?? 1;
    if (!(Number.isInteger(here) && here >= 0)) {
      throw new RangeError(`Row ${i + 1} has count ${here}; a count is a whole number of zero or more.`);
    }
    if (!(time > 0 && time < Infinity)) {
      throw new RangeError(`Row ${i + 1} has exposure ${time}; it must be above zero. Take a minute for none.`);
    }
    count[i] = here;
    times[i] = time;
  }
  let cells: Float64Array | undefined;
  let offset: Float64Array | undefined;
  return {
    rows,
    size,
    names: ["(intercept)", ...design.names],
    count,
    exposure: times,
    design,
    get cells() {
      cells ??= cellsOf(input.covariates, design, true);
      return cells;
    },
    get offset() {
      offset ??= times.map(Math.log);
      return offset;
    },
  };
}

/** Linear predictor of every row. */
export function predictors(rows: CountRows, place: ArrayLike<number>): Float64Array {
  const { size, cells, offset } = rows;
  return offset.map((start, i) => {
    let sum = start;
    for (let j = 0; j < size; j += 1) sum += (cells[i * size + j] as number) * (place[j] as number);
    return sum;
  });
}

/** X' r and X' W X. */
export function weigh(
  rows: CountRows,
  residual: Float64Array,
  weight: Float64Array,
): { readonly score: Float64Array; readonly information: Float64Array } {
  const { size, cells } = rows;
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  for (let i = 0; i < rows.rows; i += 1) {
    for (let j = 0; j < size; j += 1) {
      score[j] = (score[j] as number) + (cells[i * size + j] as number) * (residual[i] as number);
    }
  }
  addSquares(information, cells, size, { from: 0, to: rows.rows, weight });
  mirror(information, size);
  return { score, information };
}

/** How much each row pulls its own fit: w x' (X' W X)^-1 x. */
export function leverages(rows: CountRows, weight: Float64Array, within: Float64Array): Float64Array {
  const { size, cells } = rows;
  return weight.map((w, i) => {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      let inner = 0;
      for (let k = 0; k < size; k += 1) inner += (within[j * size + k] as number) * (cells[i * size + k] as number);
      sum += (cells[i * size + j] as number) * inner;
    }
    return w * sum;
  });
}

/**
 * The table that takes coefficients per standard deviation about the mean to the units asked for.
 *   b_j / s_j, and the intercept less sum of mean_j b_j / s_j
 */
function toUnits({ design, size }: CountRows): Float64Array {
  const table = new Float64Array(size * size);
  table[0] = 1;
  for (let j = 1; j < size; j += 1) {
    const scale = (design.scale[j - 1] as number) || 1;
    table[j * size + j] = 1 / scale;
    table[j] = -(design.centre[j - 1] as number) / scale;
  }
  return table;
}

export function inUnits(rows: CountRows, place: Float64Array): Float64Array {
  const { size } = rows;
  const table = toUnits(rows);
  return place.map((_, i) => place.reduce((sum, value, j) => sum + (table[i * size + j] as number) * value, 0));
}

export function varianceInUnits(rows: CountRows, within: Float64Array): Float64Array {
  const { size } = rows;
  const table = toUnits(rows);
  const result = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) {
      let sum = 0;
      for (let a = 0; a < size; a += 1) {
        for (let b = 0; b < size; b += 1) {
          sum += (table[i * size + a] as number) * (within[a * size + b] as number) * (table[j * size + b] as number);
        }
      }
      result[i * size + j] = sum;
    }
  }
  return result;
}
