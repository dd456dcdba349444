import { isMissing } from "../../missing/index.ts";
import { dosesOf, type DrugChart, type Infusion } from "../chart.ts";
import { compatibilityTable, mayShare } from "../compatibility.ts";
import { differencesOf, meets, MINUTES_IN_DAY } from "./circle.ts";

/** One dose at one time it may take. Starts are minutes from the first midnight and may lie before it or past the end. */
export interface Option {
  readonly index: number;
  readonly dose: number;
  /** Steps moved, signed; 0 is as charted. */
  readonly steps: number;
  /** The dose with its flushes. */
  readonly start: number;
  readonly length: number;
  /** What the lumen is closed to others for: the same, or whole days for a dedicated infusion. */
  readonly closedFrom: number;
  readonly closedFor: number;
}

/** A dose of the chart: the same lumen and the same clock time on every active day. */
export interface Dose {
  readonly infusion: number;
  readonly chartedMin: number;
  readonly options: readonly Option[];
}

/** The chart as numbers, for the search. Infusions keep their order, so that an index names the same one everywhere. */
export interface Problem {
  readonly horizonMin: number;
  readonly stepMin: number;
  readonly days: readonly (readonly number[])[];
  readonly doses: readonly Dose[];
  readonly options: readonly Option[];
  readonly share: readonly (readonly boolean[])[];
  readonly dedicated: readonly boolean[];
  readonly rates: readonly number[];
  /** Infinity where no labelled flow is known. */
  readonly flowLimit: number;
  /** Day differences between two infusions' active days. */
  readonly dayDifferences: readonly (readonly (readonly number[])[])[];
}

/** Lays a chart out as doses and the times each may take; `moves` false keeps every dose as charted. */
export function problemOf(chart: DrugChart, moves: boolean): Problem {
  const horizonMin = chart.horizonDays * MINUTES_IN_DAY;
  const days = chart.infusions.map(({ daysActive }) =>
    daysActive && chart.horizonDays > 1 ? [...daysActive] : Array.from({ length: chart.horizonDays }, (_, day) => day),
  );
  const known = compatibilityTable(chart);
  const options: Option[] = [];
  const doses: Dose[] = [];
  chart.infusions.forEach((infusion, index) => {
    for (const chartedMin of dosesOf(infusion.timing, MINUTES_IN_DAY)) {
      const own = optionsOf(chart, infusion, chartedMin, moves, doses.length, options.length);
      options.push(...own);
      doses.push({ infusion: index, chartedMin, options: own });
    }
  });
  return {
    horizonMin,
    stepMin: chart.stepMin,
    days,
    doses,
    options,
    share: chart.infusions.map((first) =>
      chart.infusions.map((second) => first !== second && mayShare(chart, known(first.id, second.id), first, second)),
    ),
    dedicated: chart.infusions.map(({ dedicated }) => dedicated),
    rates: chart.infusions.map(({ rateMlPerHour }) => (isMissing(rateMlPerHour) ? 0 : rateMlPerHour)),
    flowLimit: isMissing(chart.lumenFlowMlPerHour) ? Infinity : chart.lumenFlowMlPerHour,
    dayDifferences: days.map((first) => days.map((second) => differencesOf(first, second, chart.horizonDays))),
  };
}

/** Steps a dose may move, nearest first. Nutrition, and what is flagged, never moves. */
function stepsOf(chart: DrugChart, infusion: Infusion, moves: boolean): readonly number[] {
  const fixed = infusion.content === "nutrition" || !infusion.movable || infusion.timing.kind === "continuous";
  const most = moves && !fixed ? Math.floor(infusion.toleranceMin / chart.stepMin + 1e-9) : 0;
  return [0, ...Array.from({ length: most }, (_, index) => [-(index + 1), index + 1]).flat()];
}

function optionsOf(
  chart: DrugChart,
  infusion: Infusion,
  chartedMin: number,
  moves: boolean,
  dose: number,
  firstIndex: number,
): Option[] {
  const { timing } = infusion;
  const before = timing.kind === "continuous" ? 0 : infusion.flushBeforeMin;
  const length = timing.kind === "continuous" ? MINUTES_IN_DAY : before + timing.runMin + infusion.flushAfterMin;
  return stepsOf(chart, infusion, moves).map((steps, index) => {
    const start = chartedMin - before + steps * chart.stepMin;
    const closedFrom = infusion.dedicated ? Math.floor(start / MINUTES_IN_DAY) * MINUTES_IN_DAY : start;
    const closedTo = infusion.dedicated
      ? Math.ceil((start + length) / MINUTES_IN_DAY) * MINUTES_IN_DAY
      : start + length;
    const closedFor = Math.min(closedTo - closedFrom, chart.horizonDays * MINUTES_IN_DAY);
    return { index: firstIndex + index, dose, steps, start, length, closedFrom, closedFor };
  });
}

/** Whether two options cannot stand on one lumen. Doses of one infusion never run at once; others share only if they may. */
export function clash(problem: Problem, one: Option, other: Option): boolean {
  const first = problem.doses[one.dose] as Dose;
  const second = problem.doses[other.dose] as Dose;
  const differences = problem.dayDifferences[first.infusion]?.[second.infusion] as readonly number[];
  if (first.infusion === second.infusion) return overlapInTime(problem, one, other);
  if (problem.share[first.infusion]?.[second.infusion]) return false;
  return meets(other.closedFrom - one.closedFrom, one.closedFor, other.closedFor, problem.horizonMin, differences);
}

/** Whether two options run at the same moment on some day, flushes included. */
export function overlapInTime(problem: Problem, one: Option, other: Option): boolean {
  const first = (problem.doses[one.dose] as Dose).infusion;
  const second = (problem.doses[other.dose] as Dose).infusion;
  const differences = problem.dayDifferences[first]?.[second] as readonly number[];
  return meets(other.start - one.start, one.length, other.length, problem.horizonMin, differences);
}

/** The same problem without some infusions: their doses go, everything else keeps its number. */
export function withInfusions(problem: Problem, keep: (infusion: number) => boolean): Problem {
  return restricted(problem, (option) => keep((problem.doses[option.dose] as Dose).infusion));
}

/** The same problem with fewer options; a dose left with none is gone, and the rest are numbered anew. */
export function restricted(problem: Problem, keep: (option: Option) => boolean): Problem {
  const options: Option[] = [];
  const doses: Dose[] = [];
  for (const dose of problem.doses) {
    const own = dose.options
      .filter(keep)
      .map((option, index) => ({ ...option, dose: doses.length, index: options.length + index }));
    if (own.length === 0) continue;
    options.push(...own);
    doses.push({ ...dose, options: own });
  }
  return { ...problem, doses, options };
}
