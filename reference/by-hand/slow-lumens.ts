/**
 * The lumen counter a person would write on a Sunday: paint every dose on a strip of minutes, try every move and every lumen.
 * It shares nothing with src/core/drug-chart but the types. For charts of a handful of doses.
 */
import type { DrugChart, Infusion } from "../../src/core/drug-chart/index.ts";
import { isMissing } from "../../src/core/missing/index.ts";
import { MINUTES_A_DAY, sharesInWords, windowChoices, type WindowChoice } from "../drug-chart-windows.ts";

export interface SlowAnswer {
  readonly lumens: number;
  readonly moves: number;
  readonly movedMin: number;
}

interface Strip {
  readonly choice: WindowChoice;
  readonly runs: Uint8Array;
  readonly closed: Uint8Array;
}

export function slowLumens(chart: DrugChart, mayMove: boolean): SlowAnswer {
  for (let lumens = 0; ; lumens += 1) {
    const best = slowMoves(chart, mayMove, lumens);
    if (best) return { lumens, ...best };
  }
}

/** The fewest moves, then the least minutes, on so many lumens; undefined when there is no way. */
export function slowMoves(
  chart: DrugChart,
  mayMove: boolean,
  lumens: number,
): { readonly moves: number; readonly movedMin: number } | undefined {
  const horizon = chart.horizonDays * MINUTES_A_DAY;
  const paint = (windows: WindowChoice["runs"]) => {
    const strip = new Uint8Array(horizon);
    for (const [from, to] of windows)
      for (let minute = from; minute < to; minute += 1) strip[((minute % horizon) + horizon) % horizon] = 1;
    return strip;
  };
  const strips: Strip[][] = [];
  for (const choice of windowChoices(chart, mayMove))
    (strips[choice.dose] ??= []).push({ choice, runs: paint(choice.runs), closed: paint(choice.closed) });
  const placed: { readonly strip: Strip; readonly lumen: number }[] = [];
  let best: { moves: number; movedMin: number } | undefined;

  function place(dose: number, moves: number, movedMin: number): void {
    if (best && (moves > best.moves || (moves === best.moves && movedMin >= best.movedMin))) return;
    const options = strips[dose];
    if (!options) {
      best = { moves, movedMin };
      return;
    }
    const used = 1 + Math.max(-1, ...placed.map(({ lumen }) => lumen));
    for (const strip of options) {
      for (let lumen = 0; lumen < Math.min(lumens, used + 1); lumen += 1) {
        if (!stands(chart, placed, strip, lumen)) continue;
        placed.push({ strip, lumen });
        place(dose + 1, moves + Number(strip.choice.move !== 0), movedMin + Math.abs(strip.choice.move));
        placed.pop();
      }
    }
  }
  place(0, 0, 0);
  return best;
}

const met = new WeakMap<Uint8Array, WeakMap<Uint8Array, boolean>>();

function together(one: Uint8Array, other: Uint8Array): boolean {
  const row = met.get(one) ?? new WeakMap<Uint8Array, boolean>();
  met.set(one, row);
  const known = row.get(other);
  if (known !== undefined) return known;
  const meets = one.some((on, minute) => on === 1 && other[minute] === 1);
  row.set(other, meets);
  return meets;
}

function stands(
  chart: DrugChart,
  placed: readonly { readonly strip: Strip; readonly lumen: number }[],
  strip: Strip,
  lumen: number,
): boolean {
  const infusionOf = (one: Strip) => chart.infusions[one.choice.infusion] as Infusion;
  for (const other of placed) {
    if (other.strip.choice.infusion === strip.choice.infusion) {
      if (together(other.strip.runs, strip.runs)) return false;
    } else if (other.lumen === lumen && !sharesInWords(chart, infusionOf(strip), infusionOf(other.strip))) {
      if (together(other.strip.closed, strip.closed)) return false;
    }
  }
  const limit = chart.lumenFlowMlPerHour;
  if (isMissing(limit)) return true;
  const here = [...placed.filter((other) => other.lumen === lumen).map((other) => other.strip), strip];
  return strip.runs.every((on, minute) => {
    if (on === 0) return true;
    const running = here.filter(({ runs }) => runs[minute] === 1);
    const rates = running.map((one) => infusionOf(one).rateMlPerHour);
    if (running.length < 2) return true;
    return !rates.some(isMissing) && rates.reduce<number>((sum, rate) => sum + (rate as number), 0) <= limit;
  });
}

/** Whether every one of these infusions is needed: together they need more lumens than this, without any one they do not. */
export function slowIsIrreducible(chart: DrugChart, ids: readonly string[], mayMove: boolean, lumens: number): boolean {
  const only = (kept: readonly string[]): DrugChart => ({
    ...chart,
    infusions: chart.infusions.filter(({ id }) => kept.includes(id)),
  });
  return (
    slowMoves(only(ids), mayMove, lumens) === undefined &&
    ids.every((id) => slowMoves(only(ids.filter((one) => one !== id)), mayMove, lumens) !== undefined)
  );
}
