/**
 * A drug chart minute by minute, read from its own words: what the slow solver and the whole-number programme start from. It
 * shares nothing with src/core/drug-chart but the types.
 */
import type { DrugChart, Infusion } from "../src/core/drug-chart/index.ts";

export interface WindowChoice {
  readonly infusion: number;
  readonly dose: number;
  readonly move: number;
  /** Minutes of the horizon, each window as [from, to) unwrapped, one for each active day. */
  readonly runs: readonly (readonly [number, number])[];
  /** What the lumen is closed for. */
  readonly closed: readonly (readonly [number, number])[];
}

export const MINUTES_A_DAY = 1440;
const DAY = MINUTES_A_DAY;

export function windowChoices(chart: DrugChart, mayMove: boolean): readonly WindowChoice[] {
  let dose = -1;
  return chart.infusions.flatMap((infusion, index) => {
    const { timing } = infusion;
    const starts =
      timing.kind === "continuous"
        ? [0]
        : timing.kind === "at clock times"
          ? timing.startsMin
          : Array.from({ length: DAY / timing.everyMin }, (_, n) => (timing.firstMin + n * timing.everyMin) % DAY);
    return starts.flatMap((start) => {
      dose += 1;
      return movesOf(chart, infusion, mayMove).map((move) => {
        const from = start + move - (timing.kind === "continuous" ? 0 : infusion.flushBeforeMin);
        const to = timing.kind === "continuous" ? start + DAY : start + move + timing.runMin + infusion.flushAfterMin;
        const days = infusion.daysActive ?? Array.from({ length: chart.horizonDays }, (_, day) => day);
        const each = (chart.horizonDays === 1 ? [0] : days).map((day) => [from + day * DAY, to + day * DAY] as const);
        const closed = infusion.dedicated
          ? each.map(([a, b]) => [Math.floor(a / DAY) * DAY, Math.ceil(b / DAY) * DAY] as const)
          : each;
        return { infusion: index, dose, move, runs: each, closed };
      });
    });
  });
}

function movesOf(chart: DrugChart, infusion: Infusion, mayMove: boolean): readonly number[] {
  if (!mayMove || !infusion.movable || infusion.content === "nutrition" || infusion.timing.kind === "continuous")
    return [0];
  const moves: number[] = [];
  for (let move = 0; move <= infusion.toleranceMin; move += chart.stepMin) moves.push(move, -move);
  return [...new Set(moves.map((move) => (move === 0 ? 0 : move)))];
}

export const coversMinute = (windows: readonly (readonly [number, number])[], minute: number, horizon: number) =>
  windows.some(([from, to]) => {
    const since = (((minute - from) % horizon) + horizon) % horizon;
    return since < to - from;
  });

/** Every minute at which some window begins; between them nothing new can meet. */
export function momentsOf(choices: readonly WindowChoice[], horizon: number): readonly number[] {
  const all = choices.flatMap(({ runs, closed }) => [...runs, ...closed].map(([from]) => from));
  return [...new Set(all.map((from) => ((from % horizon) + horizon) % horizon))].sort((a, b) => a - b);
}

export function sharesInWords(chart: DrugChart, first: Infusion, second: Infusion): boolean {
  const row = chart.compatibility.find(
    (pair) =>
      (pair.first === first.id && pair.second === second.id) || (pair.first === second.id && pair.second === first.id),
  );
  return row?.known === "compatible" && !first.dedicated && !second.dedicated;
}
