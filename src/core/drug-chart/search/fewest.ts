import { capacityRows } from "./capacity-row.ts";
import { searchLumens, type Answer } from "./lumen-search.ts";
import type { Problem } from "./problem.ts";

export interface Fewest {
  readonly lumens: number;
  /** Proven: never fewer. */
  readonly atLeast: number;
  readonly answer: Answer;
}

/** Rounds of the first look at each number of lumens: enough to find most answers, and short. */
const FIRST_LOOK = 2;

/**
 * The fewest lumens that carry the problem, and any answer on them. First a short look from below upward finds an answer; then
 * full searches from there downward, until one rules its number out: what does not run on so many runs on no fewer.
 * `known` is an answer already at hand, on more lumens or as many.
 */
export function fewest(
  problem: Problem,
  known: { readonly lumens: number; readonly answer: Answer },
  mayGoOn: () => boolean,
): Fewest {
  const rows = capacityRows(problem);
  let atLeast = Math.min(known.lumens, leastByRows(problem));
  let best = known;
  const open: number[] = [];
  for (let lumens = atLeast; lumens < known.lumens; lumens += 1) {
    const { found, proven } = searchLumens(problem, lumens, { best: false, rounds: FIRST_LOOK }, mayGoOn, rows);
    if (found) {
      best = { lumens, answer: found };
      break;
    }
    if (proven) atLeast = lumens + 1;
    else open.push(lumens);
  }
  for (const lumens of open.toReversed()) {
    if (lumens < atLeast) break;
    const { found, proven } = searchLumens(problem, lumens, { best: false }, mayGoOn, rows);
    if (found) best = { lumens, answer: found };
    else if (proven) atLeast = Math.max(atLeast, lumens + 1);
    else break;
  }
  return { ...best, atLeast };
}

/** Doses that always run at the same moment and may not share need a lumen each. */
const leastByRows = (problem: Problem): number =>
  problem.doses.length === 0 ? 0 : Math.max(1, ...capacityRows(problem).map(({ always }) => always.length));

/** An answer that always stands: each infusion on a lumen of its own, as charted. */
export function oneLumenEach(problem: Problem): { readonly lumens: number; readonly answer: Answer } {
  const infusions = [...new Set(problem.doses.map(({ infusion }) => infusion))];
  const assignment = problem.doses.map(({ infusion, options }) => ({
    option: options.find(({ steps }) => steps === 0) as Problem["options"][number],
    lumen: infusions.indexOf(infusion),
  }));
  return { lumens: infusions.length, answer: { assignment, moves: 0, steps: 0 } };
}
