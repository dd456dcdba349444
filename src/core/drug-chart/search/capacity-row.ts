import { MINUTES_IN_DAY, wrap } from "./circle.ts";
import type { Dose, Problem } from "./problem.ts";

/**
 * At one moment of the horizon, the options that would then run, all of infusions that may not share: each holds a lumen
 * of its own, so at most as many can be chosen as there are lumens.
 */
export interface CapacityRow {
  readonly atMin: number;
  readonly options: readonly number[];
  /** How many doses the options belong to: a row with no more than the lumens says nothing. */
  readonly doses: number;
  /** Doses that run then whatever option they take. */
  readonly always: readonly number[];
}

/** How many sets of infusions are tried at one moment. */
const SETS_AT_ONE_MOMENT = 4;

/** Rows at every moment an option starts. Between starts fewer options run, so those moments say less. */
export function capacityRows(problem: Problem): readonly CapacityRow[] {
  const rows = new Map<string, CapacityRow>();
  for (const [atMin, running] of runningAt(problem)) {
    for (const set of setsThatDoNotShare(problem, running)) {
      const options = running.filter(
        (option) => set.has(infusionOf(problem, option)) && !isLaterDedicatedDose(problem, running, option),
      );
      const counts = new Map<number, number>();
      for (const option of options) {
        const { dose } = problem.options[option] as (typeof problem.options)[number];
        counts.set(dose, (counts.get(dose) ?? 0) + 1);
      }
      const always = [...counts].flatMap(([dose, count]) =>
        count === (problem.doses[dose] as Dose).options.length ? [dose] : [],
      );
      rows.set(options.join(), { atMin, options, doses: counts.size, always });
    }
  }
  return [...rows.values()];
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

/** Sets of infusions of which no two may share a lumen, grown greedily so that every infusion stands in one. */
function setsThatDoNotShare(problem: Problem, running: readonly number[]): readonly ReadonlySet<number>[] {
  const infusions = [...new Set(running.map((option) => infusionOf(problem, option)))];
  const shares = (one: number, other: number) => problem.share[one]?.[other] ?? false;
  const partners = new Map(infusions.map((one) => [one, infusions.filter((other) => shares(one, other)).length]));
  const fewestPartnersFirst = infusions.toSorted((a, b) => (partners.get(a) as number) - (partners.get(b) as number));
  const sets: Set<number>[] = [];
  const covered = new Set<number>();
  for (const seed of fewestPartnersFirst) {
    if (covered.has(seed)) continue;
    const set = new Set([seed]);
    for (const fresh of [true, false]) {
      for (const one of fewestPartnersFirst) {
        if (covered.has(one) === fresh && sets.length > 0) continue;
        if (!set.has(one) && [...set].every((member) => !shares(member, one))) set.add(one);
      }
    }
    for (const one of set) covered.add(one);
    sets.push(set);
    if (sets.length === SETS_AT_ONE_MOMENT) break;
  }
  return sets;
}
