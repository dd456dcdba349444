import type { CoxRows } from "./partial-likelihood.ts";
import { relativeHazards, sweep } from "./sweep.ts";

/**
 * What every row adds to the score, in the order the rows were given; the sums over rows are zero at the maximum.
 *   event (x - mean) - exp(x b) integral over entry to exit of (x - mean(u)) dH(u); tied events by Efron's thinning
 * The integrals come from two running sums over the event times, so all rows together cost O(rows x size).
 * Source: Lin DY, Wei LJ 1989; Therneau and Grambsch 2000, 4.2 (from memory).
 * Example: `coxRegression` with a cluster.
 */
export function scoreResiduals(rows: CoxRows, place: Float64Array): Float64Array {
  const { sets, size, cells, ties } = rows;
  const theta = relativeHazards(cells, size, place);
  const residuals = new Float64Array(sets.rows * size);
  const width = 1 + size;
  const steps = new Float64Array((sets.places + 1) * width); // hazard, and hazard times mean
  sweep(sets, { size, cells, theta }, ties, (p, weight, sums, thinning) => {
    const total = sums[0] as number;
    const hazard = weight / total;
    const from = sets.deaths[p] as number;
    const end = sets.deathsEnd[p] as number;
    steps[p * width] = (steps[p * width] as number) + hazard;
    for (let j = 0; j < size; j += 1) {
      const mean = (sums[1 + j] as number) / total;
      const at = p * width + 1 + j;
      steps[at] = (steps[at] as number) + hazard * mean;
      for (let row = from; row < end; row += 1) {
        const away = (cells[row * size + j] as number) - mean;
        const own = (sets.source[row] as number) * size + j;
        // a tied row is only partly in its own thinned risk sets
        residuals[own] =
          (residuals[own] as number) +
          (weight * away) / (end - from) +
          thinning * (theta[row] as number) * away * hazard;
      }
    }
  });
  // from the last place of each stratum (its earliest time) upwards, so that a place holds all steps up to its time
  for (let p = sets.places - 2; p >= 0; p -= 1) {
    if (sets.first[p] !== sets.first[p + 1]) continue;
    for (let k = 0; k < width; k += 1) {
      steps[p * width + k] = (steps[p * width + k] as number) + (steps[(p + 1) * width + k] as number);
    }
  }
  const take = (row: number, p: number, sign: number) => {
    for (let j = 0; j < size; j += 1) {
      const own = (sets.source[row] as number) * size + j;
      const away =
        (cells[row * size + j] as number) * (steps[p * width] as number) - (steps[p * width + 1 + j] as number);
      residuals[own] = (residuals[own] as number) - sign * (theta[row] as number) * away;
    }
  };
  // rows met at a place have that time, or none before it, as their first event time at or before their exit
  for (let p = 0, row = 0, left = 0; p < sets.places; p += 1) {
    const first = sets.first[p] as number;
    if (p === 0 || sets.first[p - 1] !== first) {
      row = first;
      left = first;
    }
    for (; row < (sets.joined[p] as number); row += 1) take(row, p, 1);
    // a row whose entry lies at or after this time, but before the time above, takes off all that came up to it
    for (; left < (sets.left[p] as number); left += 1) take(sets.leaving[left] as number, p, -1);
  }
  return residuals;
}
