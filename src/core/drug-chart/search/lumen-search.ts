import { capacityRows, type CapacityRow } from "./capacity-row.ts";
import { leastCostSearch, type Assignment, type LeastCostSearch } from "./least-cost.ts";
import type { Cost } from "./price.ts";
import type { Problem } from "./problem.ts";

/** States kept in a search's first round, and how many times more in each next one: a narrow round is quick and prunes the next. */
const FIRST_WIDTH = 16;
const WIDER = 6;

export interface LumenSearch {
  /** Times and lumens on so many lumens, fewest moves first, then fewest steps; absent when none was found. */
  readonly found?: Answer;
  /** Without `found`: that there is none. With it: that none has fewer moves, or as many and fewer steps. */
  readonly proven: boolean;
  /** No answer on so many lumens moves fewer doses; nor, with that many, by fewer steps. */
  readonly leastMoves: number;
  readonly leastSteps: number;
}

export interface Aim {
  /** False stops at the first answer, however many moves it takes. */
  readonly best: boolean;
  /** No more rounds than this without an answer, but the first of them even when time is up. */
  readonly rounds?: number;
}

/** A time and a lumen for every dose, how many of them move, and by how many steps in all. */
export interface Answer {
  readonly assignment: Assignment;
  readonly moves: number;
  readonly steps: number;
}

const answerOf = (assignment: Assignment): Answer => ({
  assignment,
  moves: assignment.filter(({ option }) => option.steps !== 0).length,
  steps: assignment.reduce((sum, { option }) => sum + Math.abs(option.steps), 0),
});

/**
 * Whether the chart runs on so many lumens, and then with how few moves.
 * Four searches take turns. One finds, led by the whole cost of moving. One asks only whether it can be done, and may pull
 * every dose earlier. One counts moves alone, so that half a move rounds up. One, once the moves are known, counts steps.
 */
export function searchLumens(
  problem: Problem,
  lumens: number,
  aim: Aim,
  mayGoOn: () => boolean,
  rows: readonly CapacityRow[] = capacityRows(problem),
): LumenSearch {
  const none = { leastMoves: 0, leastSteps: 0 };
  if (problem.doses.length === 0) return { found: answerOf([]), proven: true, ...none };
  if (lumens === 0) return { proven: true, ...none };
  // one move outweighs all steps that all doses can move together
  const weight =
    1 + problem.doses.reduce((sum, { options }) => sum + Math.max(...options.map(({ steps }) => Math.abs(steps))), 0);
  const cost: Cost = ({ steps }) => (steps === 0 ? 0 : weight + Math.abs(steps));
  const isBetter = (one: Answer, other: Answer | undefined) =>
    !other || one.moves < other.moves || (one.moves === other.moves && one.steps < other.steps);
  const common = { problem, rows, lumens, mayGoOn };
  const chartward = { ...common, cost, pull: "to the charted time" } as const;
  const whether = leastCostSearch({
    ...common,
    pull: "earlier",
    cost: ({ steps }) => steps,
    measure: () => 0,
    most: 0,
  });
  const finding = leastCostSearch({ ...chartward, measure: cost, most: weight * (problem.doses.length + 1) });
  const counting = leastCostSearch({
    ...chartward,
    measure: ({ steps }) => (steps === 0 ? 0 : 1),
    most: problem.doses.length,
  });
  let stepping: LeastCostSearch | undefined;
  let best: Answer | undefined;
  const offer = (assignment: Assignment | undefined) => {
    if (!assignment) return;
    const answer = answerOf(assignment);
    if (!isBetter(answer, best)) return;
    best = answer;
    for (const search of [finding, counting, stepping]) search?.beat(assignment);
  };
  const result = (proven: boolean): LumenSearch => ({
    ...(best && { found: best }),
    proven,
    leastMoves: Math.min(counting.bound(), best?.moves ?? Infinity),
    leastSteps: proven ? (best?.steps ?? 0) : (stepping?.bound() ?? 0),
  });

  whether.weigh();
  if (whether.isProven()) return result(true);
  const next = widening();
  for (let round = 0; mayGoOn() || (round === 0 && aim.rounds !== undefined); round += 1) {
    if (!best) {
      if (round === (aim.rounds ?? Infinity)) break;
      for (const search of [finding, whether]) {
        if (best) continue;
        next(search);
        offer(search.best());
        if (!best && search.isProven()) return result(true);
      }
    } else if (!aim.best || best.moves === 0) {
      break;
    } else if (!counting.isProven()) {
      for (const search of [counting, finding]) {
        if (counting.isProven()) continue;
        next(search);
        offer(search.best());
      }
      if (finding.isProven()) return result(true);
    } else {
      stepping ??= leastCostSearch({
        ...chartward,
        measure: ({ steps }) => Math.abs(steps),
        most: best.steps - 1,
        moves: best.moves,
        mostCost: weight * best.moves + best.steps - 1,
      });
      next(stepping);
      offer(stepping.best());
      if (stepping.isProven()) return result(true);
    }
  }
  return result(best?.moves === 0);
}

/** Gives each search its next round, wider than its last. */
function widening(): (search: LeastCostSearch) => void {
  const rounds = new Map<LeastCostSearch, number>();
  return (search) => {
    const round = rounds.get(search) ?? 0;
    rounds.set(search, round + 1);
    search.round(FIRST_WIDTH * WIDER ** round);
  };
}
