/** A pivot below this share of the largest diagonal is rounding: the group adds nothing the others do not tell. */
const NOTHING_LEFT = 1e-9;

export interface ChiSquare {
  /** To be held against a chi-square with these degrees of freedom. */
  readonly statistic: number;
  readonly degreesOfFreedom: number;
}

/**
 * z' V^- z and the rank of V, for a symmetric V of a few groups, by elimination with the largest pivot first.
 * Holds: V positive semidefinite; z in its range. Both are copied.
 * Source: Golub GH, Van Loan CF 1996, Matrix Computations, 4.2.9 (from memory).
 * Example: z = (2, -2), V = ((1, -1), (-1, 1)): 4 on 1 degree.
 */
export function quadraticForm(score: ArrayLike<number>, variance: ArrayLike<number>): ChiSquare {
  const size = score.length;
  const z = Float64Array.from(score);
  const v = Float64Array.from(variance);
  const done = new Uint8Array(size);
  let largest = 0;
  for (let i = 0; i < size; i += 1) largest = Math.max(largest, v[i * size + i] as number);
  let statistic = 0;
  let rank = 0;
  for (; rank < size; rank += 1) {
    let pivot = -1;
    for (let i = 0; i < size; i += 1) {
      if (done[i] === 0 && (pivot < 0 || (v[i * size + i] as number) > (v[pivot * size + pivot] as number))) pivot = i;
    }
    const value = v[pivot * size + pivot] as number;
    if (!(value > NOTHING_LEFT * largest)) break;
    done[pivot] = 1;
    statistic += (z[pivot] as number) ** 2 / value;
    for (let i = 0; i < size; i += 1) {
      if (done[i] === 1) continue;
      const share = (v[i * size + pivot] as number) / value;
      z[i] = (z[i] as number) - share * (z[pivot] as number);
      for (let j = 0; j < size; j += 1) {
        v[i * size + j] = (v[i * size + j] as number) - share * (v[pivot * size + j] as number);
      }
    }
  }
  return { statistic, degreesOfFreedom: rank };
}
