import { minute, type Minute } from "../quantity/index.ts";
import { chartFaults } from "./chart-fault.ts";
import type { DrugChart } from "./chart.ts";
import { compatibilityTable } from "./compatibility.ts";
import type { ChartRefused, FewestLumens, LumenAnswer, LumenProof, PlacedDose, RetimedAnswer } from "./lumen-answer.ts";
import { lumenOffers } from "./offers.ts";
import { MINUTES_IN_DAY, wrap } from "./search/circle.ts";
import { fewest, oneLumenEach, type Fewest } from "./search/fewest.ts";
import { searchLumens, type Answer } from "./search/lumen-search.ts";
import { neededSet } from "./search/needed-set.ts";
import { problemOf, type Problem } from "./search/problem.ts";

export interface LumenEffort {
  /** Asked now and then during the search; false stops it, and the answer says what is not proven. */
  readonly mayGoOn: () => boolean;
  /** A dose that runs no longer than this, flushes aside, is short enough to offer a peripheral cannula for. */
  readonly shortRunMin: Minute;
}

/**
 * The fewest lumens that carry a drug chart: as charted, and after moving doses within their tolerance with the fewest moves
 * and then the least minutes moved; each dose on its lumen, and why fewer is impossible.
 *   two doses stand on one lumen if they never run at once, flushes included, or are known to be compatible and their
 *   rates are within the lumen's labelled flow together; a dedicated lumen carries nothing else on the days it is used
 * Holds: charts that repeat each day or each week. Exact by a complete search (see search/lumen-search.ts); when `mayGoOn`
 * stops it, the status says "best found, not proven" and `atLeast` is what is proven.
 * Errors: a chart with a fault is refused whole, with every fault.
 * Source: colouring of circular arcs, Tucker A 1975, SIAM J Appl Math 29:493 (from memory), with arcs that may move.
 * Example: three one-hour doses at 08:00, known to mix with nothing, take three lumens; each may move 15 minutes, still three;
 * each may move an hour, one, with two moves of 60 minutes.
 */
export function fewestLumens(chart: DrugChart, effort: LumenEffort): FewestLumens | ChartRefused {
  const faults = chartFaults(chart);
  if (faults.length > 0) return { kind: "refused", faults };
  const fixed = problemOf(chart, false);
  const charted = fewest(fixed, oneLumenEach(fixed), effort.mayGoOn);
  const asCharted = answerFor(chart, fixed, charted, effort);
  const problem = problemOf(chart, true);
  const least = fewest(problem, charted, effort.mayGoOn);
  const retimed = retimedAnswer(chart, problem, least, charted, effort);
  return {
    kind: "answered",
    asCharted,
    retimed,
    offers: lumenOffers(chart, retimed, effort),
    unknownPairs: unknownPairs(
      chart,
      chart.infusions.flatMap(({ dedicated }, index) => (dedicated ? [] : [index])),
    ),
  };
}

function retimedAnswer(
  chart: DrugChart,
  problem: Problem,
  least: Fewest,
  charted: Fewest,
  effort: LumenEffort,
): RetimedAnswer {
  const still = least.lumens === charted.lumens;
  const search = still ? undefined : searchLumens(problem, least.lumens, { best: true }, effort.mayGoOn);
  const answer = still ? charted.answer : better(search?.found, least.answer);
  return {
    ...answerFor(chart, problem, { ...least, answer }, effort),
    dosesMoved: answer.moves,
    totalMovedMin: minute(answer.steps * chart.stepMin),
    movesStatus: still || search?.proven ? "proven" : "best found, not proven",
    atLeastMoved: still ? 0 : Math.min(search?.leastMoves ?? 0, answer.moves),
  };
}

const better = (one: Answer | undefined, other: Answer): Answer =>
  one && (one.moves < other.moves || (one.moves === other.moves && one.steps <= other.steps)) ? one : other;

function answerFor(chart: DrugChart, problem: Problem, least: Fewest, effort: LumenEffort): LumenAnswer {
  const { lumens, atLeast, answer } = least;
  const doses = placedDoses(chart, problem, answer);
  const common = { lumens, atLeast, doses };
  if (atLeast < lumens) return { ...common, status: "best found, not proven" };
  return { ...common, status: "proven", ...(lumens > 0 && { proof: proofOf(chart, problem, lumens, effort) }) };
}

function proofOf(chart: DrugChart, problem: Problem, lumens: number, effort: LumenEffort): LumenProof {
  const { infusions, irreducible } = neededSet(problem, lumens - 1, effort.mayGoOn);
  return {
    infusionIds: infusions.map((infusion) => idOf(chart, infusion)),
    irreducible,
    unknownPairs: unknownPairs(
      chart,
      infusions.filter((infusion) => !chart.infusions[infusion]?.dedicated),
    ),
  };
}

const idOf = (chart: DrugChart, infusion: number): string => chart.infusions[infusion]?.id as string;

function unknownPairs(chart: DrugChart, infusions: readonly number[]): readonly (readonly [string, string])[] {
  const known = compatibilityTable(chart);
  const ids = infusions.map((infusion) => idOf(chart, infusion));
  return ids.flatMap((first, index) =>
    ids.slice(index + 1).flatMap((second) => (known(first, second) === "unknown" ? [[first, second] as const] : [])),
  );
}

/** Doses in the chart's order; lumens numbered from 1 as they are first met. */
function placedDoses(chart: DrugChart, problem: Problem, { assignment }: Answer): readonly PlacedDose[] {
  const order = [...new Set(assignment.map(({ lumen }) => lumen))];
  return assignment.map(({ option, lumen }, dose) => {
    const { infusion, chartedMin } = problem.doses[dose] as Problem["doses"][number];
    const moved = option.steps * chart.stepMin;
    return {
      infusionId: idOf(chart, infusion),
      chartedMin: minute(chartedMin),
      startMin: minute(wrap(chartedMin + moved, MINUTES_IN_DAY)),
      movedMin: minute(moved),
      lumen: order.indexOf(lumen) + 1,
      occupiedFromMin: minute(wrap(option.start, MINUTES_IN_DAY)),
      occupiedForMin: minute(option.length),
    };
  });
}
