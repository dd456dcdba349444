/** A tall table of numbers, stored column by column. */
export interface Columns {
  readonly rows: number;
  readonly columns: number;
  readonly values: Float64Array;
}

export const columnsOf = (rows: number, columns: number): Columns => ({
  rows,
  columns,
  values: new Float64Array(rows * columns),
});

/**
 * The x that makes A x nearest to b, by Householder reflections with the largest remaining column first.
 *   min |A x - b|; columns are first scaled to equal length, and those below 1e-14 of the largest are left out
 * Holds: rows >= columns, else RangeError; A and b are overwritten. A nearly dependent basis is welcome: what is left
 * out costs nothing in the residual. Source: Golub GH, Van Loan CF 1996, Matrix Computations, 5.4.1 (from memory).
 * Example: the straight line through three points.
 */
export function leastSquares(table: Columns, right: Float64Array): Float64Array {
  const { rows, columns, values } = table;
  if (rows < columns) throw new RangeError(`The table has ${rows} rows for ${columns} unknowns; it needs more rows.`);
  const scale = new Float64Array(columns);
  for (let c = 0; c < columns; c += 1) {
    const column = values.subarray(c * rows, (c + 1) * rows);
    const length = Math.sqrt(dot(column, column, 0));
    scale[c] = length > 0 ? 1 / length : 0;
    for (let r = 0; r < rows; r += 1) column[r] = (column[r] as number) * (scale[c] as number);
  }
  const order = Int32Array.from({ length: columns }, (_, index) => index);
  const column = (place: number) => {
    const at = (order[place] as number) * rows;
    return values.subarray(at, at + rows);
  };
  const left = new Float64Array(columns).fill(1);
  const diagonal = new Float64Array(columns);
  let rank = 0;
  for (; rank < columns; rank += 1) {
    let best = rank;
    for (let c = rank + 1; c < columns; c += 1) if ((left[c] as number) > (left[best] as number)) best = c;
    swap(order, rank, best);
    swap(left, rank, best);
    const pivot = column(rank);
    const length = Math.sqrt(dot(pivot, pivot, rank));
    if (!(length > RANK_CUT)) break;
    const head = (pivot[rank] as number) > 0 ? -length : length;
    // the reflection is kept below the diagonal, with its own head in place of the diagonal
    pivot[rank] = (pivot[rank] as number) - head;
    diagonal[rank] = head;
    const half = -head * (pivot[rank] as number);
    reflect(pivot, right, rank, half);
    for (let c = rank + 1; c < columns; c += 1) {
      const other = column(c);
      reflect(pivot, other, rank, half);
      // the running length loses digits, so it is measured afresh when little is left
      const rest = (left[c] as number) - (other[rank] as number) ** 2;
      left[c] = rest > 1e-6 ? rest : dot(other, other, rank + 1);
    }
  }
  const x = new Float64Array(columns);
  for (let place = rank - 1; place >= 0; place -= 1) {
    let value = right[place] as number;
    for (let c = place + 1; c < rank; c += 1) value -= (column(c)[place] as number) * (x[order[c] as number] as number);
    x[order[place] as number] = value / (diagonal[place] as number);
  }
  for (let c = 0; c < columns; c += 1) x[c] = (x[c] as number) * (scale[c] as number);
  return x;
}

const RANK_CUT = 1e-14;

function dot(a: Float64Array, b: Float64Array, from: number): number {
  let sum = 0;
  for (let r = from; r < a.length; r += 1) sum += (a[r] as number) * (b[r] as number);
  return sum;
}

function reflect(pivot: Float64Array, target: Float64Array, from: number, half: number): void {
  const factor = dot(pivot, target, from) / half;
  for (let r = from; r < pivot.length; r += 1) target[r] = (target[r] as number) - factor * (pivot[r] as number);
}

function swap(list: Int32Array | Float64Array, a: number, b: number): void {
  const kept = list[a] as number;
  list[a] = list[b] as number;
  list[b] = kept;
}
