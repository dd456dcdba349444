import { capacityRows, type CapacityRow } from "./capacity-row.ts";
import { priceOut, type Cost, type Prices } from "./price.ts";
import { restricted, type Option, type Problem } from "./problem.ts";
import { sweep, type Chosen } from "./sweep.ts";

/** How long the search may take. */
export interface Effort {
  /** Asked now and then; false stops the search with the best found so far. */
  readonly mayGoOn: () => boolean;
}

/** A time and a lumen for every dose, by dose. */
export type Assignment = readonly { readonly option: Option; readonly lumen: number }[];

export interface LeastCost {
  readonly assignment?: Assignment;
  readonly cost?: number;
  /** No assignment costs less; when it equals the cost, or there is no assignment, that is proven. */
  readonly bound: number;
  readonly proven: boolean;
}

/** Widths tried in turn: a narrow sweep is quick and its answer makes the wide ones narrow. */
const WIDTHS = [12, 150, 2000, 20_000, 120_000] as const;

/**
 * The cheapest times and lumens on so many lumens, at most `mostCost`.
 * Each round prices the crowded moments, drops the options that no cheaper answer can hold, and sweeps the clock with a
 * wider table, until a sweep is complete or meets the bound.
 */
export function leastCost(problem: Problem, lumens: number, cost: Cost, mostCost: number, effort: Effort): LeastCost {
  const pull = mostCost === 0 ? "earlier" : "to the charted time";
  let left = problem;
  let rows: readonly CapacityRow[] = capacityRows(problem);
  let best: { readonly assignment: Assignment; readonly cost: number } | undefined;
  let bound = 0;
  for (const width of WIDTHS) {
    const most = best ? best.cost - 1 : mostCost;
    const prices = priceOut(left, rows, lumens, cost, most + 1);
    bound = Math.max(bound, Math.min(most + 1, Math.ceil(prices.bound)));
    if (prices.bound > most) return concluded(best, most + 1);
    const fewer = dropDear(left, prices, most);
    if (fewer.doses.length < left.doses.length) return concluded(best, most + 1);
    const narrowed = fewer.options.length < left.options.length;
    if (narrowed) {
      left = fewer;
      rows = capacityRows(left);
    }
    const repriced = narrowed ? priceOut(left, rows, lumens, cost, most + 1) : prices;
    if (repriced.bound > most) return concluded(best, most + 1);
    const result = sweep({ problem: left, lumens, cost, prices: repriced, mostCost: most, pull, width, mayGoOn: effort.mayGoOn });
    if (result.answer) {
      best = { assignment: assignmentOf(left, result.answer.chosen), cost: result.answer.cost };
    }
    if (result.complete) return concluded(best, best?.cost ?? mostCost + 1);
    bound = Math.max(bound, Math.min(Math.ceil(result.bound), best?.cost ?? Infinity));
    if (best && best.cost <= bound) return concluded(best, best.cost);
    if (!effort.mayGoOn()) break;
  }
  return { ...best, bound, proven: false };
}

const concluded = (best: { readonly assignment: Assignment; readonly cost: number } | undefined, bound: number) => ({
  ...best,
  bound: best?.cost ?? bound,
  proven: true,
});

/** Without the options whose price alone lifts the bound over what is still looked for. */
function dropDear(problem: Problem, prices: Prices, most: number): Problem {
  const least = problem.doses.map(({ options }) =>
    Math.min(...options.map(({ index }) => prices.priced[index] as number)),
  );
  return restricted(
    problem,
    ({ index, dose }) => prices.bound + (prices.priced[index] as number) - (least[dose] as number) <= most,
  );
}

const assignmentOf = (problem: Problem, chosen: readonly Chosen[]): Assignment =>
  chosen.map(({ option, lumen }) => ({ option: problem.options[option] as Option, lumen }));
