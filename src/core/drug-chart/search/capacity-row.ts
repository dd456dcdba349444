import { MINUTES_IN_DAY, wrap } from "./circle.ts";
import type { Dose, Option, Problem } from "./problem.ts";

/**
 * Options that would run at one moment of the horizon, all of infusions that may not share: each holds a lumen of its own, so
 * at most as many can be chosen as there are lumens.
 */
export interface CapacityRow {
  readonly options: readonly number[];
  /** How many doses the options belong to: a row with no more than the lumens says nothing. */
  readonly doses: number;
  /** Doses that run then whatever option they take. */
  readonly always: readonly number[];
}

/** Rows at every moment an option starts. Between starts fewer options run, so those moments say less. */
export function capacityRows(problem: Problem): readonly CapacityRow[] {
  const rows = new Map<string, CapacityRow>();
  const setsOf = new Map<string, readonly ReadonlySet<number>[]>();
  for (const running of runningAt(problem).values()) {
    const infusions = [...new Set(running.map((option) => infusionOf(problem, option)))];
    const key = infusions.join();
    const sets = setsOf.get(key) ?? setsThatDoNotShare(problem, infusions);
    setsOf.set(key, sets);
    for (const set of sets) {
      const options = running.filter(
        (option) => set.has(infusionOf(problem, option)) && !isLaterDedicatedDose(problem, running, option),
      );
      rows.set(options.join(), rowOf(problem, options));
    }
  }
  return withoutImplied([...rows.values()]);
}

/** Rows that stand near each other in time; farther ones seldom hold one another. */
const NEAR = 12;

/** Without the rows whose options all stand in another row: that one says as much. */
function withoutImplied(rows: readonly CapacityRow[]): readonly CapacityRow[] {
  const sets = rows.map(({ options }) => new Set(options));
  const implied = (row: number, by: number): boolean => {
    const options = rows[row]?.options as readonly number[];
    const set = sets[by] as ReadonlySet<number>;
    return by !== row && options.length < set.size && options.every((option) => set.has(option));
  };
  return rows.filter((_, row) => {
    for (let by = Math.max(0, row - NEAR); by <= Math.min(rows.length - 1, row + NEAR); by += 1)
      if (implied(row, by)) return false;
    return true;
  });
}

function rowOf(problem: Problem, options: readonly number[]): CapacityRow {
  const counts = new Map<number, number>();
  for (const option of options) {
    const { dose } = problem.options[option] as Option;
    counts.set(dose, (counts.get(dose) ?? 0) + 1);
  }
  const always = [...counts].flatMap(([dose, count]) =>
    count === (problem.doses[dose] as Dose).options.length ? [dose] : [],
  );
  return { options, doses: counts.size, always };
}

/** The same rows, in the same order, over the options that are left; `left` numbers them anew, -1 for those gone. */
export function rowsOverFewer(
  rows: readonly CapacityRow[],
  fewer: Problem,
  left: readonly number[],
): readonly CapacityRow[] {
  return rows.map(({ options }) =>
    rowOf(
      fewer,
      options.flatMap((option) => ((left[option] as number) < 0 ? [] : [left[option] as number])),
    ),
  );
}

const infusionOf = (problem: Problem, option: number): number =>
  (problem.doses[problem.options[option]?.dose as number] as Dose).infusion;

/** Doses of one dedicated infusion close the same lumen, so only the first of those that close it now is counted. */
function isLaterDedicatedDose(problem: Problem, running: readonly number[], option: number): boolean {
  const infusion = infusionOf(problem, option);
  if (!problem.dedicated[infusion]) return false;
  const first = running.find((other) => infusionOf(problem, other) === infusion) as number;
  return problem.options[option]?.dose !== problem.options[first]?.dose;
}

function runningAt(problem: Problem): Map<number, number[]> {
  const { horizonMin } = problem;
  const windows = problem.options.flatMap((option) =>
    (problem.days[(problem.doses[option.dose] as Dose).infusion] as readonly number[]).map((day) => ({
      option: option.index,
      from: wrap(option.closedFrom + day * MINUTES_IN_DAY, horizonMin),
      length: option.closedFor,
    })),
  );
  const moments = [...new Set(windows.map(({ from }) => from))].sort((a, b) => a - b);
  const running = new Map<number, number[]>(moments.map((at) => [at, []]));
  const firstAt = new Map(moments.map((at, index) => [at, index]));
  for (const { option, from, length } of windows) {
    const first = firstAt.get(from) as number;
    for (let passed = 0; passed < moments.length; passed += 1) {
      const at = moments[(first + passed) % moments.length] as number;
      if (wrap(at - from, horizonMin) >= length) break;
      const there = running.get(at) as number[];
      if (!there.includes(option)) there.push(option);
    }
  }
  for (const there of running.values()) there.sort((a, b) => a - b);
  return running;
}

/** Sets of infusions of which no two may share a lumen, grown greedily until every such pair stands in one. */
function setsThatDoNotShare(problem: Problem, infusions: readonly number[]): readonly ReadonlySet<number>[] {
  const shares = (one: number, other: number) => problem.share[one]?.[other] ?? false;
  const partners = new Map(infusions.map((one) => [one, infusions.filter((other) => shares(one, other)).length]));
  const order = infusions.toSorted((a, b) => (partners.get(a) as number) - (partners.get(b) as number));
  const covered = new Set<number>();
  const pair = (one: number, other: number) => Math.min(one, other) * problem.share.length + Math.max(one, other);
  const sets: Set<number>[] = [];
  for (const first of order) {
    for (const second of order) {
      if (covered.has(pair(first, second)) || shares(first, second)) continue;
      const set = new Set([first, second]);
      const open = (one: number) => !set.has(one) && [...set].every((member) => !shares(member, one));
      // members that bring pairs not yet covered first, then any that still fit
      for (const one of order)
        if (open(one) && [...set].every((member) => !covered.has(pair(member, one)))) set.add(one);
      for (const one of order) if (open(one)) set.add(one);
      for (const one of set) for (const other of set) covered.add(pair(one, other));
      sets.push(set);
    }
  }
  return sets;
}
