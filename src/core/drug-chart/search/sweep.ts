import { EMPTY_LUMEN, lumenContents, type LumenContents } from "./lumen-contents.ts";
import type { Cost, Prices } from "./price.ts";
import type { Dose, Problem } from "./problem.ts";
import { timelineOf, type Pull, type Timeline } from "./timeline.ts";

/** One dose's option and lumen. */
export interface Chosen {
  readonly option: number;
  readonly lumen: number;
}

export interface SweepTask {
  readonly problem: Problem;
  readonly lumens: number;
  readonly cost: Cost;
  /** Prices of the measure that is made least. */
  readonly prices: Prices;
  /** Only answers that measure and cost no more are looked for. */
  readonly most: number;
  readonly mostCost: number;
  readonly pull: Pull;
  /** States kept at each event; what is over is cut away, dearest first. */
  readonly width: number;
  /** Asked now and then; false stops the sweep. */
  readonly mayGoOn: () => boolean;
}

export interface SweepResult {
  readonly chosen?: readonly Chosen[];
  /** Nothing was cut away: without an answer there is none, and with one there is none cheaper. */
  readonly complete: boolean;
  /** No answer is priced less than this. */
  readonly bound: number;
  readonly states: number;
}

interface Trail extends Chosen {
  readonly before: Trail | undefined;
}

interface State {
  key: string;
  lumens: readonly number[];
  flags: readonly number[];
  cost: number;
  bound: number;
  /** Minutes placed: of states that cost alike, one that has more behind it comes first. */
  work: number;
  trail: Trail | undefined;
}

/** Flags held in one character of a key. */
const FLAGS_IN_WORD = 15;
const STATES_BETWEEN_QUESTIONS = 256;

/**
 * Goes round the clock once and decides at every option whether its dose takes it, on which lumen. States that nothing
 * later can tell apart are merged and the cheaper is kept, so the sweep is a dynamic programme; `prices` bounds what each
 * state must still cost. Lumens are told apart only by what they hold.
 * Holds: exact when `width` and `mayGoOn` cut nothing away.
 */
export function sweep(task: SweepTask): SweepResult {
  const { problem, lumens, width, most } = task;
  const timeline = timelineOf(problem, task.pull);
  const contents = lumenContents(problem, timeline);
  const least = leastPrices(timeline, task.prices, problem);
  const words = Math.ceil(timeline.flags / FLAGS_IN_WORD);
  const start: State = {
    key: "",
    lumens: Array.from({ length: lumens }, () => EMPTY_LUMEN),
    flags: Array.from({ length: words }, () => 0),
    cost: 0,
    bound: task.prices.bound,
    work: 0,
    trail: undefined,
  };
  let table = new Map<string, State>([[(start.key = keyOf(start)), start]]);
  let cutAway = Infinity;
  let states = 0;
  let sinceAsked = 0;
  let held = 8;
  for (let event = 0; event < timeline.events.length; event += 1) {
    const now = timeline.times[event] as number;
    if (event > 0 && now > (timeline.times[event - 1] as number)) {
      table = letGo(table, contents, now);
      if (table.size > held * OUTGROWN) {
        table = withoutOutdone(table, contents);
        held = table.size;
      }
    }
    const step = stepAt(task, timeline, contents, least, event);
    const before = [...table.values()];
    // at a dose's last option its flag goes, so placed and unplaced states must not meet in one table
    if (step.last) table = new Map();
    for (const state of before) {
      if (step.isPlaced(state)) {
        if (step.last) keepCheaper(table, step.done(state));
        continue;
      }
      states += 1;
      sinceAsked += 1;
      for (const child of step.taken(state)) keepCheaper(table, child);
      state.bound += step.waiting;
      if (!step.last && state.bound > most) table.delete(state.key);
    }
    if (sinceAsked >= STATES_BETWEEN_QUESTIONS) {
      sinceAsked = 0;
      if (!task.mayGoOn()) return { complete: false, bound: Math.min(cutAway, leastBound(table)), states };
    }
    if (table.size > width * 1.5) {
      const kept = [...table.values()].sort((a, b) => a.bound - b.bound || b.work - a.work);
      cutAway = Math.min(cutAway, kept[width]?.bound ?? Infinity);
      table = new Map(kept.slice(0, width).map((state) => [state.key, state]));
    }
    if (table.size === 0) break;
  }
  const complete = cutAway === Infinity;
  const best = [...table.values()].reduce<State | undefined>((a, b) => (a && a.cost <= b.cost ? a : b), undefined);
  if (!best) return { complete, bound: Math.min(cutAway, most + 1), states };
  return { chosen: followed(best.trail, problem), complete, bound: Math.min(cutAway, most + 1), states };
}

/** For each event, the least price among its dose's options from there on, and from the next one on. */
interface LeastPrices {
  readonly from: Float64Array;
  readonly after: Float64Array;
}

function leastPrices(timeline: Timeline, prices: Prices, problem: Problem): LeastPrices {
  const from = new Float64Array(timeline.events.length);
  const after = new Float64Array(timeline.events.length);
  const soFar = problem.doses.map(() => Infinity);
  for (let event = timeline.events.length - 1; event >= 0; event -= 1) {
    const { dose, index } = timeline.events[event] as Timeline["events"][number];
    after[event] = soFar[dose] as number;
    soFar[dose] = Math.min(soFar[dose] as number, prices.priced[index] as number);
    from[event] = soFar[dose];
  }
  return { from, after };
}

/** What one event can do to a state. */
function stepAt(task: SweepTask, timeline: Timeline, contents: LumenContents, least: LeastPrices, event: number) {
  const { problem, most, mostCost } = task;
  const option = timeline.events[event] as Timeline["events"][number];
  const { dose, index } = option;
  const last = timeline.lastEvent[dose] === event;
  const first = timeline.firstEvent[dose] === event;
  const flag = timeline.flag[dose] as number;
  const word = Math.floor(flag / FLAGS_IN_WORD);
  const bit = 1 << (flag % FLAGS_IN_WORD);
  const own = task.cost(option);
  const rise = (task.prices.priced[index] as number) - (least.from[event] as number);
  const waiting = last ? 0 : (least.after[event] as number) - (least.from[event] as number);
  const watchSiblings = timeline.siblingsMeet[(problem.doses[dose] as Dose).infusion] as boolean;
  const beforeIsPlaced = placedTest(timeline, timeline.before[dose] as number, event);
  const changed = (flags: readonly number[], to: (held: number) => number): readonly number[] =>
    flag < 0 ? flags : flags.with(word, to(flags[word] as number));

  function taken(state: State): readonly State[] {
    const bound = state.bound + rise;
    if (bound > most || state.cost + own > mostCost || !beforeIsPlaced(state)) return [];
    const children: State[] = [];
    const tried: number[] = [];
    state.lumens.forEach((content, lumen) => {
      if (tried.includes(content)) return;
      tried.push(content);
      const grown = contents.with(content, index);
      if (grown < 0) return;
      if (watchSiblings && state.lumens.some((other, at) => at !== lumen && contents.holdsSibling(other, index)))
        return;
      const child: State = {
        key: "",
        lumens: state.lumens.with(lumen, grown),
        flags: last ? changed(state.flags, (held) => held & ~bit) : changed(state.flags, (held) => held | bit),
        cost: state.cost + own,
        bound,
        work: state.work + option.closedFor,
        trail: { option: index, lumen, before: state.trail },
      };
      child.key = keyOf(child);
      children.push(child);
    });
    return children;
  }

  return {
    last,
    waiting,
    taken,
    isPlaced: (state: State) => !first && flag >= 0 && ((state.flags[word] as number) & bit) !== 0,
    done: (state: State): State => {
      if (flag < 0) return state;
      state.flags = changed(state.flags, (held) => held & ~bit);
      state.key = keyOf(state);
      return state;
    },
  };
}

/** Whether an interchangeable dose that must come first has been placed. */
function placedTest(timeline: Timeline, before: number, event: number): (state: State) => boolean {
  if (before < 0 || (timeline.lastEvent[before] as number) < event) return () => true;
  if ((timeline.firstEvent[before] as number) > event) return () => false;
  const flag = timeline.flag[before] as number;
  const word = Math.floor(flag / FLAGS_IN_WORD);
  const bit = 1 << (flag % FLAGS_IN_WORD);
  return (state) => ((state.flags[word] as number) & bit) !== 0;
}

/** Flags, then contents in order whatever lumen holds them, as characters. */
function keyOf({ flags, lumens }: State): string {
  const codes = [...flags, ...lumens];
  for (let at = flags.length + 1; at < codes.length; at += 1) {
    const content = codes[at] as number;
    let to = at;
    for (; to > flags.length && (codes[to - 1] as number) > content; to -= 1) codes[to] = codes[to - 1] as number;
    codes[to] = content;
  }
  if ((codes[codes.length - 1] as number) <= 0xffff) return String.fromCharCode.apply(undefined, codes);
  return codes.join();
}

function keepCheaper(table: Map<string, State>, state: State): void {
  const known = table.get(state.key);
  if (!known) {
    table.set(state.key, state);
    return;
  }
  if (state.cost < known.cost) {
    known.cost = state.cost;
    known.bound = state.bound;
    known.trail = state.trail;
    known.lumens = state.lumens;
  }
}

/** Lets go of what has ended on every lumen, and merges the states that no longer differ. */
function letGo(table: Map<string, State>, contents: LumenContents, now: number): Map<string, State> {
  const next = new Map<string, State>();
  for (const state of table.values()) {
    const lumens = state.lumens.map((content) => contents.at(content, now));
    if (lumens.includes(-1)) continue;
    if (lumens.some((content, lumen) => content !== state.lumens[lumen])) {
      state.lumens = lumens;
      state.key = keyOf(state);
    }
    keepCheaper(next, state);
  }
  return next;
}

/** Growth of the table after which it is looked through for outdone states. */
const OUTGROWN = 1.2;

/** How many of the cheaper states each one is held against. */
const HELD_AGAINST = 24;

/**
 * Leaves out a state that another outdoes: the same doses placed for no more, and every lumen free as early. What completes
 * the one completes the other.
 */
function withoutOutdone(table: Map<string, State>, contents: LumenContents): Map<string, State> {
  const alike = new Map<string, { readonly state: State; readonly free: readonly number[] }[]>();
  for (const state of table.values()) {
    const sorted = [...state.lumens].sort(
      (a, b) => contents.kindOf(a) - contents.kindOf(b) || contents.freeFrom(a) - contents.freeFrom(b),
    );
    const key = String.fromCharCode(...state.flags, ...sorted.map(contents.kindOf));
    const entry = { state, free: sorted.map(contents.freeFrom) };
    const group = alike.get(key);
    if (group) group.push(entry);
    else alike.set(key, [entry]);
  }
  for (const group of alike.values()) {
    if (group.length === 1) continue;
    group.sort((a, b) => a.state.cost - b.state.cost);
    const kept: (typeof group)[number][] = [];
    for (const entry of group) {
      const outdone = kept.some(({ free }) => free.every((from, lumen) => from <= (entry.free[lumen] as number)));
      if (outdone) table.delete(entry.state.key);
      else if (kept.length < HELD_AGAINST) kept.push(entry);
    }
  }
  return table;
}

const leastBound = (table: Map<string, State>): number =>
  [...table.values()].reduce((least, { bound }) => Math.min(least, bound), Infinity);

function followed(trail: Trail | undefined, problem: Problem): readonly Chosen[] {
  const chosen: Chosen[] = [];
  for (let at = trail; at; at = at.before) {
    const dose = problem.options[at.option]?.dose as number;
    chosen[dose] = { option: at.option, lumen: at.lumen };
  }
  return chosen;
}
