import { capacityRows } from "./capacity-row.ts";
import { searchLumens } from "./lumen-search.ts";
import { priceOut } from "./price.ts";
import { withInfusions, type Dose, type Problem } from "./problem.ts";

export interface NeededSet {
  readonly infusions: readonly number[];
  readonly irreducible: boolean;
}

/**
 * Of infusions that do not run on so many lumens, a set that still does not, of which every one is needed: without any one
 * the others do. Infusions are left out one at a time, and each that proves needed stays.
 * Holds: the problem is known not to run on so many lumens.
 */
export function neededSet(problem: Problem, lumens: number, mayGoOn: () => boolean): NeededSet {
  const inOneRow = alwaysTogether(problem, lumens + 1);
  if (inOneRow) return { infusions: inOneRow, irreducible: true };
  let kept = pricedSet(problem, lumens) ?? [...new Set(problem.doses.map(({ infusion }) => infusion))];
  const needed = new Set<number>();
  // a hard question is put off until the set is smaller
  for (const rounds of [1, 2, 3, Infinity]) {
    for (const infusion of kept) {
      // one lumen each is enough for so few
      if (kept.length === lumens + 1) return { infusions: kept, irreducible: true };
      if (needed.has(infusion) || !kept.includes(infusion)) continue;
      if (!mayGoOn()) return { infusions: kept, irreducible: false };
      const others = kept.filter((one) => one !== infusion);
      const without = withInfusions(problem, (one) => others.includes(one));
      const { found, proven } = searchLumens(without, lumens, { best: false, rounds }, mayGoOn);
      if (found) needed.add(infusion);
      else if (proven) kept = pricedSet(without, lumens) ?? others;
    }
    if (kept.every((infusion) => needed.has(infusion))) return { infusions: kept, irreducible: true };
  }
  return { infusions: kept, irreducible: false };
}

/** So many infusions of which each has a dose that always runs at one moment: any fewer of them have a lumen each. */
function alwaysTogether(problem: Problem, count: number): readonly number[] | undefined {
  for (const { always } of capacityRows(problem)) {
    const infusions = new Set(always.map((dose) => (problem.doses[dose] as Dose).infusion));
    if (infusions.size >= count) return [...infusions].slice(0, count);
  }
  return undefined;
}

/** Where prices alone rule the number out: the infusions that pay for it. The others add nothing to the bound. */
function pricedSet(problem: Problem, lumens: number): readonly number[] | undefined {
  const prices = priceOut({ problem, rows: capacityRows(problem), lumens, cost: () => 0 }, 1);
  if (prices.bound <= 0) return undefined;
  const paying = problem.doses.filter(({ options }) =>
    options.every(({ index }) => (prices.priced[index] as number) > 0),
  );
  return [...new Set(paying.map(({ infusion }) => infusion))];
}
