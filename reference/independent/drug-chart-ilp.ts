/**
 * The fewest lumens as a whole-number programme in LP text, for an independent solver. Written from the chart's own words and
 * sharing nothing with src/core/drug-chart but the types: it takes the chart minute by minute.
 *   x(dose, move, lumen) = 1 when the dose takes that move and that lumen; y(lumen) = 1 when the lumen is used
 *   each dose once; at every minute where something starts, on every lumen: of infusions that do not share, one at most
 */
import type { DrugChart, Infusion } from "../../src/core/drug-chart/index.ts";
import { isMissing } from "../../src/core/missing/index.ts";
import {
  coversMinute,
  momentsOf,
  MINUTES_A_DAY,
  sharesInWords,
  windowChoices,
  type WindowChoice,
} from "../drug-chart-windows.ts";

/** What of the solver is used. */
export interface Highs {
  readonly solve: (
    programme: string,
    options?: { readonly time_limit?: number },
  ) => {
    readonly Status: string;
    readonly ObjectiveValue: number;
  };
}

/** `most` lumens are known to be enough. NaN when the solver did not finish in `seconds`. */
export function highsLumens(highs: Highs, chart: DrugChart, mayMove: boolean, most: number, seconds = 60): number {
  const { Status, ObjectiveValue } = highs.solve(lumenProgramme(chart, mayMove, { kind: "lumens", most }), {
    time_limit: seconds,
  });
  return Status === "Optimal" ? Math.round(ObjectiveValue) : Number.NaN;
}

export function highsMoves(
  highs: Highs,
  chart: DrugChart,
  lumens: number,
  seconds = 60,
): { readonly moves: number; readonly movedMin: number } {
  const { Status, ObjectiveValue } = highs.solve(lumenProgramme(chart, true, { kind: "moves", lumens }), {
    time_limit: seconds,
  });
  if (Status !== "Optimal") return { moves: Number.NaN, movedMin: Number.NaN };
  const perMove = minutesPerMove(windowChoices(chart, true));
  const cost = Math.round(ObjectiveValue);
  return { moves: Math.floor(cost / perMove), movedMin: cost % perMove };
}

type Aim =
  /** The fewest of so many lumens. */
  | { readonly kind: "lumens"; readonly most: number }
  /** The fewest moves, then the least minutes moved, on so many lumens. */
  | { readonly kind: "moves"; readonly lumens: number };

/** One dose moved counts as this many minutes, more than all minutes that all doses can move. */
const minutesPerMove = (choices: readonly WindowChoice[]): number =>
  1 +
  [...groupedBy(choices, ({ dose }) => dose).values()].reduce(
    (sum, own) => sum + Math.max(...own.map(({ move }) => Math.abs(move))),
    0,
  );

function lumenProgramme(chart: DrugChart, mayMove: boolean, aim: Aim): string {
  const horizon = chart.horizonDays * MINUTES_A_DAY;
  const choices = windowChoices(chart, mayMove);
  const lumens = aim.kind === "lumens" ? aim.most : aim.lumens;
  const x = (choice: number, lumen: number) => `x${choice}_${lumen}`;
  const perMove = minutesPerMove(choices);
  const objective: string[] = [];
  for (let lumen = 0; lumen < lumens; lumen += 1) {
    if (aim.kind === "lumens") objective.push(`y${lumen}`);
    else
      choices.forEach(({ move }, choice) => {
        if (move !== 0) objective.push(`${perMove + Math.abs(move)} ${x(choice, lumen)}`);
      });
  }
  const rows: string[] = [];
  const doses = new Set(choices.map(({ dose }) => dose));
  for (const dose of doses) {
    const terms = choices.flatMap((choice, index) =>
      choice.dose === dose ? Array.from({ length: lumens }, (_, lumen) => x(index, lumen)) : [],
    );
    rows.push(`${terms.join(" + ")} = 1`);
    if (aim.kind === "lumens")
      for (let lumen = 0; lumen < lumens; lumen += 1) {
        const own = choices.flatMap((choice, index) => (choice.dose === dose ? [x(index, lumen)] : []));
        rows.push(`${own.join(" + ")} - y${lumen} <= 0`);
      }
  }
  const seen = new Set<string>();
  for (const minute of momentsOf(choices, horizon)) {
    for (const group of exclusiveGroups(chart, choices, minute, horizon)) {
      if (seen.has(group.join())) continue;
      seen.add(group.join());
      for (let lumen = 0; lumen < lumens; lumen += 1) {
        const limit = aim.kind === "lumens" ? ` - y${lumen} <= 0` : " <= 1";
        rows.push(`${group.map((choice) => x(choice, lumen)).join(" + ")}${limit}`);
      }
    }
    const running = choices.flatMap(({ runs }, choice) => (coversMinute(runs, minute, horizon) ? [choice] : []));
    rows.push(...flowRows(chart, choices, running, lumens, x));
    rows.push(...siblingRows(choices, running, lumens, x));
  }
  if (aim.kind === "lumens")
    for (let lumen = 1; lumen < lumens; lumen += 1) rows.push(`y${lumen} - y${lumen - 1} <= 0`);
  const names = choices.flatMap((_, choice) => Array.from({ length: lumens }, (_, lumen) => x(choice, lumen)));
  if (aim.kind === "lumens") names.push(...Array.from({ length: lumens }, (_, lumen) => `y${lumen}`));
  const body = `Minimize\n obj: ${objective.length > 0 ? objective.join(" + ") : `0 ${x(0, 0)}`}\nSubject To\n${rows.map((row, index) => ` c${index}: ${row}`).join("\n")}\n`;
  return `${body}Binary
 ${names.join(" ")}
End
`;
}

/** Groups that between them hold every pair of choices that may not meet at this minute, each group exclusive as a whole. */
function exclusiveGroups(
  chart: DrugChart,
  choices: readonly WindowChoice[],
  minute: number,
  horizon: number,
): readonly (readonly number[])[] {
  const closing = choices.flatMap(({ closed }, choice) => (coversMinute(closed, minute, horizon) ? [choice] : []));
  const infusions = [...new Set(closing.map((choice) => choices[choice]?.infusion as number))];
  const apart = (one: number, other: number) =>
    one !== other && !sharesInWords(chart, chart.infusions[one] as Infusion, chart.infusions[other] as Infusion);
  const left = new Set(
    infusions.flatMap((one) =>
      infusions.flatMap((other) => (one < other && apart(one, other) ? [`${one},${other}`] : [])),
    ),
  );
  const groups: number[][] = [];
  while (left.size > 0) {
    const [seed] = left;
    const group = (seed as string).split(",").map(Number);
    for (const one of infusions)
      if (!group.includes(one) && group.every((member) => apart(member, one))) group.push(one);
    for (const one of group) for (const other of group) left.delete(`${one},${other}`);
    groups.push(group);
  }
  // doses of one dedicated infusion may follow each other on its lumen: only one of them stands in a row
  return groups.flatMap((group) => rowsOfGroup(chart, choices, closing, group));
}

/** A group as rows over choices; for a dedicated infusion with several doses, a row for each of its doses. */
function rowsOfGroup(
  chart: DrugChart,
  choices: readonly WindowChoice[],
  closing: readonly number[],
  group: readonly number[],
): readonly (readonly number[])[] {
  let rows: number[][] = [[]];
  for (const infusion of group) {
    const own = closing.filter((choice) => choices[choice]?.infusion === infusion);
    const parts = chart.infusions[infusion]?.dedicated
      ? [...groupedBy(own, (choice) => choices[choice]?.dose).values()]
      : [own];
    rows = rows.flatMap((row) => parts.map((part) => [...row, ...part]));
  }
  return rows;
}

/** The labelled flow: what runs through one lumen together stays within it, and an unknown rate does not share. */
function flowRows(
  chart: DrugChart,
  choices: readonly WindowChoice[],
  running: readonly number[],
  lumens: number,
  x: (choice: number, lumen: number) => string,
): readonly string[] {
  const limit = chart.lumenFlowMlPerHour;
  if (isMissing(limit) || running.length < 2) return [];
  const rate = (choice: number): number => {
    const own = chart.infusions[choices[choice]?.infusion as number]?.rateMlPerHour;
    return own === undefined || isMissing(own) ? limit : own;
  };
  const rows: string[] = [];
  for (let lumen = 0; lumen < lumens; lumen += 1)
    rows.push(`${running.map((choice) => `${rate(choice)} ${x(choice, lumen)}`).join(" + ")} <= ${limit}`);
  return rows;
}

/** Two doses of one infusion never run at once, on any lumens. */
function siblingRows(
  choices: readonly WindowChoice[],
  running: readonly number[],
  lumens: number,
  x: (choice: number, lumen: number) => string,
): readonly string[] {
  return [...groupedBy(running, (choice) => choices[choice]?.infusion).values()].flatMap((own) =>
    new Set(own.map((choice) => choices[choice]?.dose)).size < 2
      ? []
      : [`${own.flatMap((choice) => Array.from({ length: lumens }, (_, lumen) => x(choice, lumen))).join(" + ")} <= 1`],
  );
}

function groupedBy<Value, Key>(values: readonly Value[], key: (value: Value) => Key): Map<Key, Value[]> {
  const groups = new Map<Key, Value[]>();
  for (const value of values) groups.set(key(value), [...(groups.get(key(value)) ?? []), value]);
  return groups;
}
