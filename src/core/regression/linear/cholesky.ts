/** Square symmetric tables are stored whole, row after row. */
export interface Factor {
  readonly size: number;
  /** Lower triangle L with A = L L'. */
  readonly lower: Float64Array;
}

export interface Dependent {
  /** The first column that the earlier ones already tell. */
  readonly dependent: number;
}

/** What is left of a diagonal below this share of itself is rounding. */
const NOTHING_LEFT = 1e-11;

/**
 * The Cholesky factor of a symmetric positive definite table, or the first column that depends on the earlier ones.
 *   A = L L'
 * Holds: sizes of a few dozen. Source: Golub GH, Van Loan CF 1996, Matrix Computations, 4.2 (from memory).
 * Example: A = ((4, 2), (2, 5)): L = ((2, 0), (1, 2)).
 */
export function cholesky(table: Float64Array, size: number): Factor | Dependent {
  const lower = new Float64Array(size * size);
  for (let j = 0; j < size; j += 1) {
    let diagonal = table[j * size + j] as number;
    for (let k = 0; k < j; k += 1) diagonal -= (lower[j * size + k] as number) ** 2;
    if (!(diagonal > NOTHING_LEFT * (table[j * size + j] as number))) return { dependent: j };
    const root = Math.sqrt(diagonal);
    lower[j * size + j] = root;
    for (let i = j + 1; i < size; i += 1) {
      let sum = table[i * size + j] as number;
      for (let k = 0; k < j; k += 1) sum -= (lower[i * size + k] as number) * (lower[j * size + k] as number);
      lower[i * size + j] = sum / root;
    }
  }
  return { size, lower };
}

/** The x with A x = b. Example: A = ((4, 2), (2, 5)), b = (8, 12): x = (1, 2). */
export function solve(factor: Factor, right: ArrayLike<number>): Float64Array {
  const { size, lower } = factor;
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i += 1) {
    let sum = x[i] as number;
    for (let k = 0; k < i; k += 1) sum -= (lower[i * size + k] as number) * (x[k] as number);
    x[i] = sum / (lower[i * size + i] as number);
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = x[i] as number;
    for (let k = i + 1; k < size; k += 1) sum -= (lower[k * size + i] as number) * (x[k] as number);
    x[i] = sum / (lower[i * size + i] as number);
  }
  return x;
}

/** A^-1, column by column. */
export function inverse(factor: Factor): Float64Array {
  const { size } = factor;
  const table = new Float64Array(size * size);
  const unit = new Float64Array(size);
  for (let j = 0; j < size; j += 1) {
    unit.fill(0);
    unit[j] = 1;
    const solved = solve(factor, unit);
    for (let i = 0; i < size; i += 1) table[i * size + j] = solved[i] as number;
  }
  return table;
}

/** log |A| = 2 sum log L_jj. */
export function logDeterminant(factor: Factor): number {
  let sum = 0;
  for (let j = 0; j < factor.size; j += 1) sum += Math.log(factor.lower[j * factor.size + j] as number);
  return 2 * sum;
}

/** x' A y for a whole table. */
export function bilinear(x: ArrayLike<number>, table: Float64Array, y: ArrayLike<number>): number {
  const size = x.length;
  let sum = 0;
  for (let i = 0; i < size; i += 1) {
    let inner = 0;
    for (let j = 0; j < size; j += 1) inner += (table[i * size + j] as number) * (y[j] as number);
    sum += (x[i] as number) * inner;
  }
  return sum;
}

/** A B A for symmetric A and B: the sandwich of a robust variance. */
export function sandwich(outer: Float64Array, inner: Float64Array, size: number): Float64Array {
  const half = new Float64Array(size * size);
  const whole = new Float64Array(size * size);
  const multiply = (a: Float64Array, b: Float64Array, into: Float64Array) => {
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1) {
        let sum = 0;
        for (let k = 0; k < size; k += 1) sum += (a[i * size + k] as number) * (b[k * size + j] as number);
        into[i * size + j] = sum;
      }
    }
  };
  multiply(outer, inner, half);
  multiply(half, outer, whole);
  return whole;
}
