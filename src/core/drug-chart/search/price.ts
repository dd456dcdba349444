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
  /** Per row, and last the toll for each dose moved. */
  readonly price: Float64Array;
}

/** What is priced. */
export interface PricedTask {
  readonly problem: Problem;
  readonly rows: readonly CapacityRow[];
  readonly lumens: number;
  readonly cost: Cost;
  /** So many doses move, exactly; each then pays a toll, positive or negative, that all of them get back together. */
  readonly moves?: number;
}

/** Prices are whole multiples of this, so that every sum is exact in binary and the bound carries no rounding. */
const GRAIN = 2 ** -20;
const ROUNDS = 400;
const ROUNDS_WHEN_WARM = 120;
const PATIENCE = 8;

/**
 * Lower bound by pricing the capacity rows (Lagrangian relaxation).
 *   bound(u, v) = sum over doses of min over options (cost + sum of u of the rows it runs in + v if it moves)
 *                 - lumens x sum of u - moves x v,   u >= 0, v of either sign
 * Every u and v give a true bound; they are improved by subgradient steps of Polyak's length towards `target`, from `warm` on.
 * Source: Held M, Wolfe P, Crowder HP 1974, Math Program 6:62 (from memory).
 */
export function priceOut(task: PricedTask, target: number, warm?: Float64Array): Prices {
  const { problem, rows, lumens, cost, moves } = task;
  const rowsOf = rowsOfOptions(problem, rows);
  const toll = rows.length;
  const costs = Float64Array.from(problem.options, cost);
  const mayBind = Uint8Array.from([...rows.map(({ doses }) => (doses > lumens ? 1 : 0)), moves === undefined ? 0 : 1]);
  const price = Float64Array.from(mayBind, (binds, row) => (binds ? (warm?.[row] ?? 0) : 0));
  const chosen = new Int32Array(problem.doses.length);
  const over = new Int32Array(price.length);
  const optionsOf = rows.map(({ options }) => Int32Array.from(options));
  const at = () => pricesAt(task, optionsOf, costs, price, chosen);
  let now = at();
  let best = now;
  let pace = warm ? 0.3 : 1;
  let stale = 0;
  for (let round = 0; round < (warm ? ROUNDS_WHEN_WARM : ROUNDS) && best.bound <= target - 1; round += 1) {
    over.fill(-lumens);
    over[toll] = -(moves ?? 0);
    for (const option of chosen) {
      for (const row of rowsOf[option] as Int32Array) over[row] = (over[row] as number) + 1;
      if (problem.options[option]?.steps !== 0) over[toll] += 1;
    }
    let length = 0;
    for (let row = 0; row < price.length; row += 1)
      if (mayBind[row] && ((over[row] as number) > 0 || (price[row] as number) !== 0))
        length += (over[row] as number) ** 2;
    if (length === 0) break;
    const step = (pace * Math.max(target - now.bound, 0.5)) / length;
    for (let row = 0; row < price.length; row += 1) {
      if (!mayBind[row]) continue;
      const raised = Math.round(((price[row] as number) + step * (over[row] as number)) / GRAIN) * GRAIN;
      price[row] = row === toll ? raised : Math.max(0, raised);
    }
    now = at();
    stale = now.bound > best.bound ? 0 : stale + 1;
    if (now.bound > best.bound) best = now;
    if (stale >= PATIENCE) {
      stale = 0;
      pace /= 1.6;
      if (pace < 0.001) break;
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
  { problem, lumens, moves }: PricedTask,
  optionsOf: readonly Int32Array[],
  costs: Float64Array,
  price: Float64Array,
  chosen: Int32Array,
): Prices {
  const priced = costs.slice();
  const toll = price[price.length - 1] as number;
  let sum = 0;
  optionsOf.forEach((options, row) => {
    const one = price[row] as number;
    if (one === 0) return;
    sum += one;
    for (const option of options) priced[option] = (priced[option] as number) + one;
  });
  let bound = -(moves ?? 0) * toll - lumens * sum;
  problem.doses.forEach(({ options }, dose) => {
    let least = Infinity;
    for (const { index, steps } of options) {
      if (steps !== 0) priced[index] = (priced[index] as number) + toll;
      if ((priced[index] as number) < least) {
        least = priced[index] as number;
        chosen[dose] = index;
      }
    }
    bound += least;
  });
  return { bound, priced, price: price.slice() };
}
