import { MINUTES_IN_DAY, wrap } from "./circle.ts";
import { clash, overlapInTime, type Option, type Problem } from "./problem.ts";
import type { Timeline } from "./timeline.ts";

/** What a lumen holds, as far as anything still to be placed could notice. Equal contents share one number. */
export interface LumenContents {
  /** The content with one option more; -1 where it does not fit, or where another answer is as good (see `Timeline`). */
  readonly with: (content: number, option: number) => number;
  /** The content as it looks now, without what ended a step ago; -1 where a dose stands needlessly early. */
  readonly at: (content: number, now: number) => number;
  /** Whether another dose of the same infusion runs here at that time. */
  readonly holdsSibling: (content: number, option: number) => boolean;
  /** Contents of one kind differ only in when they are free for everything: the earlier, the better. */
  readonly kindOf: (content: number) => number;
  readonly freeFrom: (content: number) => number;
}

export const EMPTY_LUMEN = 0;

interface Member {
  readonly option: number;
  /** Stands before its charted time, and nothing has yet been seen that keeps it from moving a step nearer. */
  readonly owes: boolean;
}

interface Content {
  readonly members: readonly Member[];
  readonly changesAt: number;
  readonly kind: number;
  readonly freeFrom: number;
  seen: { readonly now: number; readonly content: number } | undefined;
}

export function lumenContents(problem: Problem, timeline: Timeline): LumenContents {
  const { places, starts, companions, stepMin } = timeline;
  const contents: Content[] = [];
  const numbers = new Map<string, number>();
  const kinds = new Map<string, number>();
  const grown = new Map<number, number>();
  const siblings = new Map<number, boolean>();
  const labels: string[][] = [];
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

  /** The infusions that could still join it, told from those that could not; itself where more than that matters. */
  function company(option: number, now: number): string {
    const infusion = infusionOf(option);
    if (timeline.toldApart[infusion]) return `${infusion}@${placeOf(option).dayShift}`;
    const rate = problem.flowLimit === Infinity ? "" : `*${problem.rates[infusion]}`;
    const joining = companions[option] ?? [];
    let still = 0;
    while (still < joining.length && (joining[still]?.lastStart as number) >= now) still += 1;
    if (still === 0) return "";
    const own = (labels[option] ??= []);
    return (own[still] ??=
      joining
        .slice(0, still)
        .map(({ infusion: other }) => other)
        .sort((one, two) => one - two)
        .join("&") + rate);
  }

  /** All of a member that a later choice can notice. */
  function token({ option, owes }: Member, now: number): string {
    if (owes) return `${option}!`;
    const who = company(option, now);
    const end = nextStart(endOnClock(option));
    if (!placeOf(option).crosses) return `${end}:${who}`;
    if (isAllDay(option)) return `all:${who}:${option}`;
    return `${endOnClock(option) + stepMin > now ? end : 0}/${placeOf(option).from}:${who}`;
  }

  const isPlain = (member: Member, now: number): boolean =>
    !member.owes && !placeOf(member.option).crosses && company(member.option, now) === "";

  function changesAt({ option }: Member, now: number): number {
    if (isAllDay(option)) return Infinity;
    const end = endOnClock(option) + stepMin;
    const lastStarts = (companions[option] ?? []).map(({ lastStart }) => starts[nextStart(lastStart + 1)] ?? Infinity);
    return Math.min(...[end, ...lastStarts].filter((moment) => moment > now));
  }

  function numberOf(members: readonly Member[], now: number): number {
    const tokens = members.map((member) => token(member, now)).sort();
    const key = tokens.join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    const plain = members.filter((member) => isPlain(member, now));
    const rest = members.filter((member) => !plain.includes(member));
    const kind = rest
      .map((member) => token(member, now))
      .sort()
      .join();
    if (!kinds.has(kind)) kinds.set(kind, kinds.size);
    numbers.set(key, contents.length);
    contents.push({
      members,
      changesAt: Math.min(...members.map((member) => changesAt(member, now))),
      kind: kinds.get(kind) as number,
      freeFrom: Math.max(0, ...plain.map(({ option }) => nextStart(endOnClock(option)))),
      seen: undefined,
    });
    return contents.length - 1;
  }

  function fits(held: readonly number[], index: number): boolean {
    if (held.some((option) => clash(problem, optionAt(option), optionAt(index)))) return false;
    return (
      held.length === 0 || problem.flowLimit === Infinity || peakRate(problem, [...held, index]) <= problem.flowLimit
    );
  }

  /** A member that owes is settled once it could no longer stand a step later beside the others. */
  function stillOwes(member: Member, held: readonly number[]): boolean {
    const on = timeline.pulledOn[member.option] as number;
    return (
      member.owes &&
      fits(
        held.filter((option) => option !== member.option),
        on,
      )
    );
  }

  function grow(members: readonly Member[], index: number): number {
    const held = members.map(({ option }) => option);
    if (!fits(held, index)) return -1;
    const back = timeline.pulledBack[index] as number;
    if (back >= 0 && fits(held, back)) return -1;
    const { from, crosses } = placeOf(index);
    const now = crosses ? -1 : from;
    const all = [...held, index];
    const settled = [...members, { option: index, owes: (timeline.pulledOn[index] as number) >= 0 }].map((member) => ({
      ...member,
      owes: stillOwes(member, all),
    }));
    // what nothing can join hides whatever ended before it
    const hides = !crosses && company(index, now) === "";
    const still = settled.filter(
      ({ option, owes }) => !hides || owes || option === index || placeOf(option).crosses || placeOf(option).to > from,
    );
    return numberOf(still, now);
  }

  function lookAt(content: Content, now: number): number {
    const still = content.members.filter(({ option }) => placeOf(option).crosses || placeOf(option).to + stepMin > now);
    return content.members.some((member) => member.owes && !still.includes(member)) ? -1 : numberOf(still, now);
  }

  numberOf([], -1);
  const contentAt = (content: number): Content => contents[content] as Content;
  return {
    with: (content, option) => {
      const key = content * count + option;
      const known = grown.get(key);
      if (known !== undefined) return known;
      const result = grow(contentAt(content).members, option);
      grown.set(key, result);
      return result;
    },
    at: (number, now) => {
      const content = contentAt(number);
      if (content.changesAt > now) return number;
      if (content.seen?.now !== now) content.seen = { now, content: lookAt(content, now) };
      return content.seen.content;
    },
    holdsSibling: (content, option) => {
      if (content === EMPTY_LUMEN) return false;
      const key = content * count + option;
      const known = siblings.get(key);
      if (known !== undefined) return known;
      const holds = contentAt(content).members.some(
        ({ option: other }) =>
          infusionOf(other) === infusionOf(option) && overlapInTime(problem, optionAt(other), optionAt(option)),
      );
      siblings.set(key, holds);
      return holds;
    },
    kindOf: (content) => contentAt(content).kind,
    freeFrom: (content) => contentAt(content).freeFrom,
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
  const runningAt = (at: number) => windows.filter(({ from, length }) => wrap(at - from, problem.horizonMin) < length);
  return Math.max(...windows.map(({ from }) => runningAt(from).reduce((sum, { rate }) => sum + rate, 0)));
}
