import type { Covariate } from "../fit/covariate.ts";
import type { CountRows } from "./count-rows.ts";

/** A covariate with more values than this is not told by a pattern. */
const FEW = 12;
/** Patterns whose sums stay in the nearest cache. */
const MOST_PATTERNS = 2048;
/** Whole numbers below this find their level in a table. */
const SMALL = 256;

/** Rows told apart by those of their covariates that take few values, with the other covariates beside. */
export interface Patterns {
  readonly patterns: number;
  /** Pattern of every row. */
  readonly code: Uint16Array;
  /** The intercept and the covariates of few values: their columns in the fit, and their scaled values by pattern. */
  readonly toldColumns: readonly number[];
  readonly told: Float64Array;
  /** The other covariates: their columns in the fit, and their scaled values, a column each. */
  readonly otherColumns: readonly number[];
  readonly other: readonly Float64Array[];
}

interface Levels {
  readonly values: readonly number[];
  readonly code: Uint8Array;
}

/**
 * Finds the patterns of the rows: a size in French, a yes or no, a number of lumens take few values, and all rows
 * that share them share that part of the predictor and of every sum.
 *   pattern = sum over covariates of level x product of the levels before
 * Holds: covariates are taken in turn while there are no more patterns than rows, nor than fit the cache.
 * O(rows x covariates). Source: Agresti A 2013, Categorical Data Analysis, 9.7 (grouped data; from memory).
 * Example: two covariates of 0 and 1: four patterns.
 */
export function patternsOf({ rows, design }: CountRows, covariates: readonly Covariate[]): Patterns {
  const code = new Uint16Array(rows);
  const taken: { readonly column: number; readonly values: readonly number[]; readonly stride: number }[] = [];
  const otherColumns: number[] = [];
  const other: Float64Array[] = [];
  const scaled = (j: number) => {
    const centre = design.centre[j] as number;
    const divide = (design.scale[j] as number) || 1;
    return (value: number) => (value - centre) / divide;
  };
  let patterns = 1;
  for (const [j, { values }] of covariates.entries()) {
    const levels = levelsOf(values, rows);
    if (levels === undefined || patterns * levels.values.length > Math.min(rows, MOST_PATTERNS)) {
      otherColumns.push(j + 1);
      other.push(scaledColumn(values, rows, design.centre[j] as number, (design.scale[j] as number) || 1));
      continue;
    }
    addLevels(code, levels.code, patterns);
    taken.push({ column: j, values: levels.values.map(scaled(j)), stride: patterns });
    patterns *= levels.values.length;
  }
  const width = 1 + taken.length;
  const told = new Float64Array(patterns * width);
  for (let p = 0; p < patterns; p += 1) {
    told[p * width] = 1;
    for (const [k, { values, stride }] of taken.entries()) {
      told[p * width + 1 + k] = values[Math.floor(p / stride) % values.length] as number;
    }
  }
  return { patterns, code, toldColumns: [0, ...taken.map(({ column }) => column + 1)], told, otherColumns, other };
}

function addLevels(code: Uint16Array, level: Uint8Array, stride: number): void {
  for (let i = 0; i < code.length; i += 1) code[i] = (code[i] as number) + (level[i] as number) * stride;
}

function scaledColumn(values: ArrayLike<number>, rows: number, centre: number, divide: number): Float64Array {
  const column = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) column[i] = ((values[i] as number) - centre) / divide;
  return column;
}

/** The distinct values of a column and where each row stands among them; undefined when there are more than a few. */
function levelsOf(column: ArrayLike<number>, rows: number): Levels | undefined {
  const values: number[] = [];
  const code = new Uint8Array(rows);
  const small = new Uint8Array(SMALL); // 1 + level
  for (let i = 0; i < rows; i += 1) {
    const value = column[i] as number;
    const whole = value & (SMALL - 1);
    let level = (whole === value ? (small[whole] as number) : 1 + values.indexOf(value)) - 1;
    if (level < 0) {
      if (values.length === FEW) return undefined;
      level = values.length;
      values.push(value);
      if (whole === value) small[whole] = level + 1;
    }
    code[i] = level;
  }
  return { values, code };
}
