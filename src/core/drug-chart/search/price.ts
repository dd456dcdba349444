import type { CapacityRow } from "./capacity-row.ts";
import type { Option, Problem } from "./problem.ts";

/** What an option costs: a whole number, so that a bound may be rounded up. */
export type Cost = (option: Option) => number;

/** A price on every crowded moment, as the search reads it. */
export interface Prices {
  /** No choice of times costs less than this on so many lumens. */
  readonly bound: number;
  /** Per option: its cost and the prices of the moments it runs through. */
  readonly priced: Float64Array;
  /** Lumens times the sum of all prices. */
  readonly rent: number;
}

/** Prices are whole multiples of this, so that every sum is exact in binary and the bound carries no rounding. */
const GRAIN = 1 / 1024;
const ROUNDS = 300;
const PATIENCE = 8;

/**
 * Lower bound by pricing the capacity rows (Lagrangian relaxation).
 *   bound(u) = sum over doses of min over options (cost + sum of u of the rows it runs in) - lumens x sum of u,  u >= 0
 * Every u gives a true bound; u is improved by subgradient steps of Polyak's length towards `target`.
 * Source: Held M, Wolfe P, Crowder HP 1974, Math Program 6:62 (from memory).
 */
export function priceOut(
  problem: Problem,
  rows: readonly CapacityRow[],
  lumens: number,
  cost: Cost,
  target: number,
): Prices {
  const tight = rows.filter(({ doses }) => doses > lumens);
  const rowsOf = rowsOfOptions(problem, tight);
  const costs = Float64Array.from(problem.options, cost);
  const price = new Float64Array(tight.length);
  const chosen = new Int32Array(problem.doses.length);
  let best: Prices = pricesAt(problem, rowsOf, costs, price, lumens, chosen);
  if (tight.length === 0) return best;
  let pace = 1;
  let stale = 0;
  let now = best;
  const load = new Int32Array(tight.length);
  for (let round = 0; round < ROUNDS && best.bound <= target - 1; round += 1) {
    load.fill(0);
    for (const option of chosen) for (const row of rowsOf[option] as Int32Array) load[row] = (load[row] as number) + 1;
    let length = 0;
    for (let row = 0; row < tight.length; row += 1) {
      const over = (load[row] as number) - lumens;
      if (over > 0 || (price[row] as number) > 0) length += over * over;
    }
    if (length === 0) break;
    const step = (pace * Math.max(target - now.bound, 0.5)) / length;
    for (let row = 0; row < tight.length; row += 1) {
      const raised = Math.max(0, (price[row] as number) + step * ((load[row] as number) - lumens));
      price[row] = Math.round(raised / GRAIN) * GRAIN;
    }
    now = pricesAt(problem, rowsOf, costs, price, lumens, chosen);
    stale = now.bound > best.bound ? 0 : stale + 1;
    if (now.bound > best.bound) best = now;
    if (stale >= PATIENCE) {
      stale = 0;
      pace /= 1.6;
      if (pace < 0.002) break;
    }
  }
  return best;
}

function rowsOfOptions(problem: Problem, rows: readonly CapacityRow[]): readonly Int32Array[] {
  const lists = problem.options.map((): number[] => []);
  rows.forEach(({ options }, row) => {
    for (const option of options) (lists[option] as number[]).push(row);
  });
  return lists.map((list) => Int32Array.from(list));
}

function pricesAt(
  problem: Problem,
  rowsOf: readonly Int32Array[],
  costs: Float64Array,
  price: Float64Array,
  lumens: number,
  chosen: Int32Array,
): Prices {
  const priced = new Float64Array(problem.options.length);
  let rent = 0;
  for (const one of price) rent += one;
  rent *= lumens;
  let bound = -rent;
  problem.doses.forEach(({ options }, dose) => {
    let least = Infinity;
    for (const { index } of options) {
      let sum = costs[index] as number;
      for (const row of rowsOf[index] as Int32Array) sum += price[row] as number;
      priced[index] = sum;
      if (sum < least) {
        least = sum;
        chosen[dose] = index;
      }
    }
    bound += least;
  });
  return { bound, priced, rent };
}
