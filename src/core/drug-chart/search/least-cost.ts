import { rowsOverFewer, type CapacityRow } from "./capacity-row.ts";
import { priceOut, type Cost, type Prices } from "./price.ts";
import { restricted, type Option, type Problem } from "./problem.ts";
import { sweep, type Chosen } from "./sweep.ts";
import type { Pull } from "./timeline.ts";

/** A time and a lumen for every dose, by dose. */
export type Assignment = readonly { readonly option: Option; readonly lumen: number }[];

/** A search for the cheapest times and lumens, in rounds that may be stopped between. */
export interface LeastCostSearch {
  /** Prices alone, without a sweep: may already rule everything out. */
  readonly weigh: () => void;
  /** One more round with a table of this width. */
  readonly round: (width: number) => void;
  /** An answer from elsewhere, to be beaten. */
  readonly beat: (answer: Assignment) => void;
  /** The best so far. */
  readonly best: () => Assignment | undefined;
  /** The best is the cheapest; or, without one, there is none. */
  readonly isProven: () => boolean;
  /** No answer measures less than this. */
  readonly bound: () => number;
}

export interface LeastCostTask {
  readonly problem: Problem;
  readonly rows: readonly CapacityRow[];
  readonly lumens: number;
  /** What is made least, a whole number. */
  readonly measure: Cost;
  /** Answers that measure more are not looked for. */
  readonly most: number;
  /** Of states that nothing later can tell apart, the one that costs less is kept. Never at odds with the measure. */
  readonly cost: Cost;
  readonly mostCost?: number;
  /** So many doses are known to move. */
  readonly moves?: number;
  readonly pull: Pull;
  readonly mayGoOn: () => boolean;
}

/**
 * Each round prices the crowded moments, drops the options that no cheaper answer can hold, and sweeps the clock; a wider
 * table finds more, and what was found makes the next one narrow. Proven when a sweep is complete or meets the bound.
 */
export function leastCostSearch(task: LeastCostTask): LeastCostSearch {
  const { lumens, cost, measure, moves, mostCost = Infinity, pull, mayGoOn } = task;
  let { problem, rows, most } = task;
  let prices: Prices | undefined;
  let best: Assignment | undefined;
  let bound = 0;
  let proven = false;

  const conclude = () => {
    proven = true;
    bound = most + 1;
  };
  const beat = (answer: Assignment) => {
    const measured = answer.reduce((sum, { option }) => sum + measure(option), 0);
    if (measured > most) return;
    best = answer;
    most = measured - 1;
  };

  /** Prices, and drops what they rule out until little is left to drop; true when nothing at all is left. */
  function ruledOut(): boolean {
    for (;;) {
      const priced = { problem, rows, lumens, cost: measure, ...(moves !== undefined && { moves }) };
      prices = priceOut(priced, most + 1, prices?.price);
      bound = Math.max(bound, Math.min(most + 1, Math.ceil(prices.bound)));
      if (prices.bound > most) return true;
      const gone = drop(prices);
      if (gone === "a whole dose") return true;
      if (gone < problem.options.length / 10) return false;
    }
  }

  /** Drops the options whose price alone lifts the bound over what is still looked for. */
  function drop(now: Prices): number | "a whole dose" {
    const price = (option: Option) => now.priced[option.index] as number;
    const cheapest = problem.doses.map(({ options }) => Math.min(...options.map(price)));
    const left = problem.options.filter(
      (option) => now.bound + price(option) - (cheapest[option.dose] as number) <= most,
    );
    const gone = problem.options.length - left.length;
    if (gone === 0) return 0;
    const newIndex = problem.options.map(() => -1);
    left.forEach(({ index }, next) => (newIndex[index] = next));
    const fewer = restricted(problem, ({ index }) => (newIndex[index] as number) >= 0);
    if (fewer.doses.length < problem.doses.length) return "a whole dose";
    rows = rowsOverFewer(rows, fewer, newIndex);
    prices = { ...now, priced: Float64Array.from(left, price) };
    problem = fewer;
    return gone;
  }

  function weigh(): void {
    if (!proven && ruledOut()) conclude();
  }

  function round(width: number): void {
    weigh();
    if (proven) return;
    const result = sweep({ problem, lumens, cost, prices: prices as Prices, pull, most, mostCost, width, mayGoOn });
    if (result.chosen) beat(assignmentOf(problem, result.chosen));
    if (result.complete) return conclude();
    bound = Math.max(bound, Math.min(Math.ceil(result.bound), most + 1));
    if (bound > most) conclude();
  }

  return { weigh, round, beat, best: () => best, isProven: () => proven, bound: () => bound };
}

const assignmentOf = (problem: Problem, chosen: readonly Chosen[]): Assignment =>
  chosen.map(({ option, lumen }) => ({ option: problem.options[option] as Option, lumen }));
