import { MINUTES_IN_DAY, wrap } from "./circle.ts";
import { clash, overlapInTime, type Option, type Problem } from "./problem.ts";
import type { Timeline } from "./timeline.ts";

/** What a lumen holds, as far as anything still to be placed could notice. Equal contents share one number. */
export interface LumenContents {
  /** The content with one option more; -1 where it does not fit, or where another answer is as good (see `Timeline`). */
  readonly with: (content: number, option: number) => number;
  /** The content once everything that ended a step ago is let go; -1 where a dose stands needlessly early. */
  readonly at: (content: number, now: number) => number;
  /** Whether another dose of the same infusion runs here at that time. */
  readonly holdsSibling: (content: number, option: number) => boolean;
}

export const EMPTY_LUMEN = 0;

interface Member {
  readonly option: number;
  /** Stands before its charted time, and nothing has yet been seen that keeps it from moving a step nearer. */
  readonly owes: boolean;
}

export function lumenContents(problem: Problem, timeline: Timeline): LumenContents {
  const { places, starts, loners, stepMin } = timeline;
  const contents: (readonly Member[])[] = [[]];
  const letGoAt: number[] = [Infinity];
  const numbers = new Map<string, number>([["", EMPTY_LUMEN]]);
  const grown = new Map<number, number>();
  const siblings = new Map<number, boolean>();
  const count = problem.options.length;
  const optionAt = (index: number): Option => problem.options[index] as Option;
  const placeOf = (index: number) => places[index] as Timeline["places"][number];
  const infusionOf = (index: number): number => problem.doses[optionAt(index).dose]?.infusion as number;
  const isAllDay = (index: number): boolean => optionAt(index).closedFor >= MINUTES_IN_DAY;
  const endOnClock = (index: number): number => placeOf(index).to - (placeOf(index).crosses ? MINUTES_IN_DAY : 0);

  /** Nothing starts between two starts, so two ends between them are the same end. */
  const nextStart = (end: number): number => {
    let low = 0;
    let high = starts.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((starts[middle] as number) < end) low = middle + 1;
      else high = middle;
    }
    return low;
  };

  /** All of a member that a later choice can notice. */
  function token({ option, owes }: Member, now: number): string {
    const infusion = infusionOf(option);
    const who = loners[infusion] ? "" : `${infusion}@${placeOf(option).dayShift}`;
    const end = nextStart(endOnClock(option));
    if (owes) return `${option}!`;
    if (!placeOf(option).crosses) return `${end}:${who}`;
    if (isAllDay(option)) return `all:${who}:${option}`;
    return `${endOnClock(option) + stepMin > now ? end : 0}/${placeOf(option).from}:${who}`;
  }

  function numberOf(held: readonly Member[], now: number): number {
    const key = held
      .map((member) => token(member, now))
      .sort()
      .join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, contents.length);
    const ends = held.filter(({ option }) => !isAllDay(option)).map(({ option }) => endOnClock(option) + stepMin);
    letGoAt.push(Math.min(...ends.filter((end) => end > now)));
    contents.push(held);
    return contents.length - 1;
  }

  function fits(held: readonly number[], index: number): boolean {
    if (held.some((option) => clash(problem, optionAt(option), optionAt(index)))) return false;
    return held.length === 0 || problem.flowLimit === Infinity || peakRate(problem, [...held, index]) <= problem.flowLimit;
  }

  /** A member that owes is settled once it could no longer stand a step later beside the others. */
  function stillOwes(member: Member, held: readonly number[]): boolean {
    const on = timeline.pulledOn[member.option] as number;
    return member.owes && fits(held.filter((option) => option !== member.option), on);
  }

  function grow(members: readonly Member[], index: number): number {
    const held = members.map(({ option }) => option);
    if (!fits(held, index)) return -1;
    const back = timeline.pulledBack[index] as number;
    if (back >= 0 && fits(held, back)) return -1;
    const { from, crosses } = placeOf(index);
    const now = [...held, index];
    const settled = [...members, { option: index, owes: (timeline.pulledOn[index] as number) >= 0 }].map((member) => ({
      ...member,
      owes: stillOwes(member, now),
    }));
    // an infusion that shares with none hides whatever ended before it
    const still = loners[infusionOf(index)]
      ? settled.filter(({ option, owes }) => owes || option === index || placeOf(option).crosses)
      : settled;
    return numberOf(still, crosses ? -1 : from);
  }

  return {
    with: (content, option) => {
      const key = content * count + option;
      const known = grown.get(key);
      if (known !== undefined) return known;
      const result = grow(contents[content] as readonly Member[], option);
      grown.set(key, result);
      return result;
    },
    at: (content, now) => {
      if ((letGoAt[content] as number) > now) return content;
      const held = contents[content] as readonly Member[];
      const still = held.filter(({ option }) => placeOf(option).crosses || placeOf(option).to + stepMin > now);
      return held.some((member) => member.owes && !still.includes(member)) ? -1 : numberOf(still, now);
    },
    holdsSibling: (content, option) => {
      if (content === EMPTY_LUMEN) return false;
      const key = content * count + option;
      const known = siblings.get(key);
      if (known !== undefined) return known;
      const holds = (contents[content] as readonly Member[]).some(
        ({ option: other }) =>
          infusionOf(other) === infusionOf(option) && overlapInTime(problem, optionAt(other), optionAt(option)),
      );
      siblings.set(key, holds);
      return holds;
    },
  };
}

/** Largest sum of rates that runs through one lumen at a moment. It can only rise where an option starts. */
export function peakRate(problem: Problem, held: readonly number[]): number {
  const windows = held.flatMap((index) => {
    const option = problem.options[index] as Option;
    const infusion = problem.doses[option.dose]?.infusion as number;
    return (problem.days[infusion] as readonly number[]).map((day) => ({
      from: wrap(option.start + day * MINUTES_IN_DAY, problem.horizonMin),
      length: option.length,
      rate: problem.rates[infusion] as number,
    }));
  });
  const runningAt = (at: number) =>
    windows.filter(({ from, length }) => wrap(at - from, problem.horizonMin) < length);
  return Math.max(...windows.map(({ from }) => runningAt(from).reduce((sum, { rate }) => sum + rate, 0)));
}
