/** Log of the sum over all ways to choose the tied events, with its gradient and (negative) curvature. */
export interface ChosenSum {
  readonly log: number;
  readonly mean: Float64Array;
  readonly spread: Float64Array;
}

/**
 * Sum over all subsets of `count` rows of the product of their relative hazards, by adding one row at a time.
 *   B_j <- B_j + theta B_(j-1), and the same rule differentiated twice
 * Holds: sums below 1e308, so some hundreds of ties among some thousands; above it a RangeError. O(rows x count x size^2).
 * Source: Gail MH, Lubin JH, Rubinstein LV 1981, Biometrika 68:703.
 * Example: hazards 1, 2, 3, two chosen: 1x2 + 1x3 + 2x3 = 11.
 */
export function chosenSum(
  rows: readonly number[],
  count: number,
  theta: Float64Array,
  cells: Float64Array,
  size: number,
): ChosenSum {
  const sums = new Float64Array(count + 1);
  const slopes = new Float64Array((count + 1) * size);
  const curves = new Float64Array((count + 1) * size * size);
  sums[0] = 1;
  for (const row of rows) {
    const hazard = theta[row] as number;
    const x = (j: number) => cells[row * size + j] as number;
    for (let c = count; c >= 1; c -= 1) {
      const before = sums[c - 1] as number;
      if (before === 0) continue;
      const slope = (j: number) => slopes[(c - 1) * size + j] as number;
      for (let j = 0; j < size; j += 1) {
        for (let k = 0; k < size; k += 1) {
          const at = (c * size + j) * size + k;
          const old = curves[((c - 1) * size + j) * size + k] as number;
          curves[at] =
            (curves[at] as number) + hazard * (old + x(j) * slope(k) + slope(j) * x(k) + x(j) * x(k) * before);
        }
      }
      for (let j = 0; j < size; j += 1) {
        slopes[c * size + j] = (slopes[c * size + j] as number) + hazard * (slope(j) + x(j) * before);
      }
      sums[c] = (sums[c] as number) + hazard * before;
    }
  }
  const total = sums[count] as number;
  if (!(total < Infinity)) {
    throw new RangeError(`${count} ties among ${rows.length} are too many for the exact method; use Efron's.`);
  }
  const mean = slopes.slice(count * size).map((value) => value / total);
  const spread = curves.slice(count * size * size);
  for (let j = 0; j < size; j += 1) {
    for (let k = 0; k < size; k += 1) {
      const at = j * size + k;
      spread[at] = (spread[at] as number) / total - (mean[j] as number) * (mean[k] as number);
    }
  }
  return { log: Math.log(total), mean, spread };
}
