import { isRemoved, NEVER, NO_MOMENT } from "../packed/index.ts";
import { NO, NOT_KNOWN_YET, verdictColumn, YES, type LineSet, type LineTest, type Measure } from "../measure/index.ts";
import type { Figure } from "./figure.ts";
import { idleFigure, shareOf } from "./figure-of.ts";
import { dayCounter } from "./count-days.ts";
import { isLostBefore, type Scene } from "./scene.ts";
import type { Parts } from "./split.ts";
import { isAbsent } from "../packed/index.ts";
import type { LineClock } from "../../core/dwell/index.ts";

type LineNumerator = Exclude<Extract<Measure["numerator"], { readonly count: "lines" }>, { readonly of: "referrals" }>;

/** The lines of a set, picked out once for all measures over it. */
function linesIn(set: LineSet, scene: Scene): Int32Array {
  const isIn = setTest(set, scene);
  const { near } = scene;
  const found = new Int32Array(near.length);
  let many = 0;
  for (let at = 0; at < near.length; at += 1) {
    const line = near[at] as number;
    if (!isIn(line)) continue;
    found[many] = line;
    many += 1;
  }
  return found.subarray(0, many);
}

function setTest(set: LineSet, { facts, opens, closes }: Scene): (line: number) => boolean {
  const { placedOn, endedOn, lines, stays } = facts;
  // a line that came with the patient is here from the day it was known, not from its placing elsewhere
  const isHere = (line: number) => (stays.first[line] as number) < closes;
  const within = (on: number) => on >= opens && on < closes;
  switch (set) {
    case "lines placed":
      return (line) => lines.knownFrom.offset[line] === NO_MOMENT && within(placedOn[line] as number);
    case "lines removed":
      return (line) => isRemoved(lines, line) && within(endedOn[line] as number);
    case "lines in place at the end":
      return (line) =>
        isHere(line) &&
        (endedOn[line] === NEVER || (endedOn[line] as number) >= closes) &&
        !isLostBefore(facts, line, closes);
    case "lines in the period":
      return (line) => isHere(line) && (endedOn[line] === NEVER || (endedOn[line] as number) >= opens);
    default:
      return set satisfies never;
  }
}

/** Adds one to the whole service and to the part a line is in, by every split. */
export function tallies(parts: Parts): { readonly by: Float64Array; readonly add: (line: number) => void } {
  const by = new Float64Array(parts.slots);
  const { splits } = parts;
  return {
    by,
    add: (line) => {
      by[0] = (by[0] as number) + 1;
      for (const { codes, base } of splits) {
        const slot = base + (codes[line] as number);
        by[slot] = (by[slot] as number) + 1;
      }
    },
  };
}

/** Whether a line is in the part of a slot. */
export function isInSlot(parts: Parts, slot: number): (line: number) => boolean {
  if (slot === 0) return () => true;
  const split = parts.splits.findLast(({ base }) => base <= slot);
  return (line) => split !== undefined && split.base + (split.codes[line] as number) === slot;
}

/** Lines of a set, with how many of each part there are on days that are still provisional. */
export interface CountedSet {
  readonly lines: Int32Array;
  readonly provisional: Int32Array;
}

export function countedSet(of: LineSet, scene: Scene): CountedSet {
  const lines = linesIn(of, scene);
  const { facts, provisionalDay } = scene;
  const dayOf = of === "lines removed" ? facts.endedOn : facts.placedOn;
  return { lines, provisional: lines.filter((line) => (dayOf[line] as number) >= provisionalDay) };
}

/** How many lines of each part answer no, yes and not known: three numbers to a slot. */
function answersBySlot(lines: Int32Array, verdict: Uint8Array, { slots, splits }: Parts): Float64Array {
  const answers = new Float64Array(slots * 3);
  for (let at = 0; at < lines.length; at += 1) {
    const own = verdict[lines[at] as number] as number;
    answers[own] = (answers[own] as number) + 1;
  }
  for (const { codes, base } of splits)
    for (let at = 0; at < lines.length; at += 1) {
      const line = lines[at] as number;
      const own = (base + (codes[line] as number)) * 3 + (verdict[line] as number);
      answers[own] = (answers[own] as number) + 1;
    }
  return answers;
}

/**
 * What a line is by its end is asked for the last day of the period: what came later was not so yet. A line last seen
 * after that day was in place on it, as "lines in place at the end" has it.
 */
const BY_THE_END: Partial<Readonly<Record<LineTest, (line: number, scene: Scene) => boolean>>> = {
  "handed on": (line, { facts, closes }) => (facts.endedOn[line] as number) < closes,
  "end not known": (line, { facts, closes }) => (facts.lastOn[line] as number) < closes,
};

/** The answers of a test, those of a later time taken back. */
function verdictsOf(test: LineTest, lines: Int32Array, scene: Scene): Uint8Array {
  const verdict = verdictColumn(test, scene.facts, scene.limits);
  const isSoYet = BY_THE_END[test];
  if (!isSoYet) return verdict;
  const own = verdict.slice();
  for (const line of lines) if (own[line] === YES && !isSoYet(line, scene)) own[line] = NO;
  return own;
}

/** Lines that pass a test among a set, of the service and of every part. */
export function shareFigures(
  measure: Measure,
  { test }: LineNumerator,
  set: CountedSet,
  scene: Scene,
  parts: Parts,
): readonly Figure[] {
  const { limits } = scene;
  const verdict = verdictsOf(test, set.lines, scene);
  const answers = answersBySlot(set.lines, verdict, parts);
  const late = answersBySlot(set.provisional, verdict, parts);
  const of = (counts: Float64Array, slot: number, answer: number) => counts[slot * 3 + answer] as number;
  return parts.told.map(({ slot, stratum }) => {
    const passed = of(answers, slot, YES);
    const used = passed + of(answers, slot, NO);
    return shareOf(
      measure,
      { passed, used, given: used + of(answers, slot, NOT_KNOWN_YET) },
      {
        stratum,
        provisional: of(late, slot, YES),
        lines: () => keysOf(set.lines, scene, parts, slot, (line) => verdict[line] === YES),
      },
      limits,
    );
  });
}

function keysOf(
  set: Int32Array,
  { facts }: Scene,
  parts: Parts,
  slot: number,
  counts: (line: number) => boolean,
): readonly string[] {
  const keys: string[] = [];
  const isIn = isInSlot(parts, slot);
  for (const line of set) if (counts(line) && isIn(line)) keys.push(facts.lines.keyAt(line));
  return keys;
}

/** Idle days of the service and of every part: the last days of each stay, on the clock of the days they are held against. */
export function idleFigures(measure: Measure, scene: Scene, parts: Parts): readonly Figure[] {
  const { facts, near, opens, closes, limits, checked } = scene;
  const { from, first, last } = facts.stays;
  const { idleDays } = facts.lines.numbers;
  const clock = measure.clock as LineClock;
  const own = dayCounter(facts.stays, scene, clock);
  const idleWithin = dayCounter(facts.stays, scene, clock, (line) => idleDays[line] as number);
  const [days, idle] = [new Float64Array(parts.slots), new Float64Array(parts.slots)];
  const [touched, usable, used] = [tallies(parts), tallies(parts), tallies(parts)];
  const put = (into: Float64Array, line: number, count: number): void => {
    into[0] = (into[0] as number) + count;
    for (const { codes, base } of parts.splits) {
      const slot = base + (codes[line] as number);
      into[slot] = (into[slot] as number) + count;
    }
  };
  const touches = (line: number): boolean =>
    !Number.isNaN(from[line]) && (first[line] as number) < closes && (last[line] as number) >= opens;
  const isUsable = (line: number): boolean => touches(line) && !isAbsent(idleDays[line] as number);
  for (const line of near) {
    if (!touches(line)) continue;
    touched.add(line);
    if (!isUsable(line)) continue;
    usable.add(line);
    const count = own(line);
    if (count > 0) {
      put(days, line, count);
      used.add(line);
    }
    put(idle, line, idleWithin(line));
  }
  return parts.told.map(({ slot, stratum }) =>
    idleFigure(
      measure,
      {
        idle: idle[slot] as number,
        days: days[slot] as number,
        used: used.by[slot] as number,
        given: (touched.by[slot] as number) + (slot === 0 ? facts.lines.count - checked.used : 0),
        unknown: (touched.by[slot] as number) - (usable.by[slot] as number),
      },
      { stratum, lines: () => keysOf(near, scene, parts, slot, (line) => isUsable(line) && idleWithin(line) > 0) },
      limits,
    ),
  );
}
