/** Rows taken at a time, so that their cells are still in the nearest cache for the next tile. */
const BLOCK = 512;

/**
 * Adds the weighted sum of squares and products of some rows to the lower triangle of a table.
 *   T_jk += sum over rows of w x_j x_k, k <= j
 * Three columns against three are summed at once: nine sums that never leave the registers cost less than nine
 * that are read and written for every row.
 * Holds: `weight[0]` belongs to row `from`. O(rows x size^2).
 * Source: Golub GH, Van Loan CF 1996, Matrix Computations, 1.3 (blocking; from memory).
 * Example: one row (1, 2) of weight 3: 3; 6, 12.
 */
export function addSquares(
  table: Float64Array,
  cells: Float64Array,
  size: number,
  rows: { readonly from: number; readonly to: number; readonly weight: Float64Array },
): void {
  for (let start = rows.from; start < rows.to; start += BLOCK) {
    const end = Math.min(rows.to, start + BLOCK);
    for (let j = 0; j < size; j += 3) {
      for (let k = 0; k <= j; k += 3) addTile(table, cells, size, j, k, start, end, rows.weight, rows.from);
    }
  }
}

/** One tile; beyond the last column it repeats that column and keeps nothing of it. */
function addTile(
  table: Float64Array,
  cells: Float64Array,
  size: number,
  j: number,
  k: number,
  start: number,
  end: number,
  weight: Float64Array,
  first: number,
): void {
  const last = size - 1;
  const j1 = Math.min(1, last - j);
  const j2 = Math.min(2, last - j);
  const k1 = Math.min(1, last - k);
  const k2 = Math.min(2, last - k);
  let s00 = 0,
    s01 = 0,
    s02 = 0,
    s10 = 0,
    s11 = 0,
    s12 = 0,
    s20 = 0,
    s21 = 0,
    s22 = 0;
  for (let row = start; row < end; row += 1) {
    const w = weight[row - first] as number;
    const at = row * size + k;
    const other = row * size + j;
    const x0 = cells[at] as number;
    const x1 = cells[at + k1] as number;
    const x2 = cells[at + k2] as number;
    const y0 = w * (cells[other] as number);
    const y1 = w * (cells[other + j1] as number);
    const y2 = w * (cells[other + j2] as number);
    s00 += y0 * x0;
    s01 += y0 * x1;
    s02 += y0 * x2;
    s10 += y1 * x0;
    s11 += y1 * x1;
    s12 += y1 * x2;
    s20 += y2 * x0;
    s21 += y2 * x1;
    s22 += y2 * x2;
  }
  const keep = (dj: number, dk: number, sum: number) => {
    if (j + dj >= size || k + dk > j + dj) return;
    const at = (j + dj) * size + k + dk;
    table[at] = (table[at] as number) + sum;
  };
  keep(0, 0, s00);
  keep(0, 1, s01);
  keep(0, 2, s02);
  keep(1, 0, s10);
  keep(1, 1, s11);
  keep(1, 2, s12);
  keep(2, 0, s20);
  keep(2, 1, s21);
  keep(2, 2, s22);
}

/** Copies the lower triangle over the upper. */
export function mirror(table: Float64Array, size: number): void {
  for (let j = 0; j < size; j += 1) {
    for (let k = 0; k < j; k += 1) table[k * size + j] = table[j * size + k] as number;
  }
}
