import { MINUTES_PER_DAY } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ROW_EVENTS, type LineRow, type RemovalReason } from "../line/index.ts";
import {
  DATE_ALONE,
  dateAt,
  END_KINDS,
  isAbsent,
  isRemoved,
  NEVER,
  NO_MOMENT,
  type PackedChecks,
  type PackedFacts,
  type PackedLines,
} from "../packed/index.ts";
import { claimedEvent, type QualityCode } from "./check-table.ts";
import { holdsLumens } from "./row-rules.ts";

// The rules that look at one line alone, as scans over columns.

const IN_PLACE = END_KINDS.indexOf("in place");
const INFECTION = ROW_EVENTS.indexOf("infection");
const [FEWEST, MOST] = [0, 1] as const;

/** The rules of one line that its times, its end and its events break. */
export function checkLine(
  { lines, placedOn, endedOn, lastOn, stays, dwellDays, eventOn, eventOutside, eventEligible }: PackedFacts,
  line: number,
  today: number,
  usualDays: number,
  limits: CountLimits,
  tell: (code: QualityCode, line: number) => void,
): void {
  const [placed, ended] = [placedOn[line] as number, endedOn[line] as number];
  const from = stays.from[line] as number;
  const hasStay = !Number.isNaN(from);
  const noPlacing = placed === NEVER;
  const outFirst = !noPlacing && (!hasStay || (ended !== NEVER && ended < placed));
  const age = lines.numbers.ageYears[line] as number;
  const isLater = (on: number, clock: number): boolean => on > todayOn(lines, clock, today);
  const impossible =
    isLater(placed, lines.placed.offset[line] as number) ||
    isLater(dateAt(lines.knownFrom, line), lines.knownFrom.offset[line] as number) ||
    isLater(ended, lines.end.offset[line] as number) ||
    isLater(lastOn[line] as number, lines.end.offset[line] as number) ||
    (age < 0 && !isAbsent(age));
  if (noPlacing) tell("T3", line);
  if (outFirst) tell("T1", line);
  if (knownBeforePlaced(lines, line)) tell("T10", line);
  if (impossible) tell("T2", line);
  const removed = isRemoved(lines, line);
  const inOrder = hasStay && !noPlacing && !outFirst && !impossible;
  if (inOrder && removed && (stays.to[line] as number) - from <= 1) tell("T4", line);
  if ((dwellDays[line] as number) > usualDays) tell("T5", line);
  if (lines.endKind[line] === IN_PLACE && today - (lastOn[line] as number) > limits.lostDays) tell("T6", line);
  if (removed && (lines.endReason.codes[line] as number) < 0) tell("T8", line);
  let [before, outside, early] = [false, false, false];
  const known = dateAt(lines.knownFrom, line);
  const { from: starts, kind, surveillance } = lines.events;
  for (let event = starts[line] as number; event < (starts[line + 1] as number); event += 1) {
    if (!noPlacing && (eventOn[event] as number) < placed) before = true;
    else if ((eventOn[event] as number) < known) continue;
    else if (eventOutside[event] === 1) outside = true;
    else if (kind[event] === INFECTION && surveillance[event] === 1 && eventEligible[event] === 0) early = true;
  }
  if (before) tell("E1", line);
  if (outside) tell("E2", line);
  if (early) tell("E3", line);
}

/** As `dayOnClockOf`: the day of the table by the clock a moment was written by, for east of it the date turns first. */
const todayOn = ({ asOf }: PackedLines, clock: number, today: number): number =>
  asOf.precision === "date" || clock === NO_MOMENT || clock === DATE_ALONE
    ? today
    : Math.floor((asOf.utc + clock) / MINUTES_PER_DAY);

/** As `isKnownBeforePlaced`, of a line in columns. */
function knownBeforePlaced({ placed, knownFrom }: PackedLines, line: number): boolean {
  const [placedClock, knownClock] = [placed.offset[line] as number, knownFrom.offset[line] as number];
  if (placedClock === NO_MOMENT || knownClock === NO_MOMENT) return false;
  return placedClock === DATE_ALONE || knownClock === DATE_ALONE
    ? dateAt(knownFrom, line) < dateAt(placed, line)
    : (knownFrom.at[line] as number) < (placed.at[line] as number);
}

/** The event each line's reason of removal claims, where none of its kind was written down. */
export function claims({ count, endReason, events, endKind, undated }: PackedLines): Int8Array {
  const claimed = new Int8Array(count).fill(-1);
  const byReason = endReason.words.map((reason) => {
    const end = { kind: "removed", reason: reason as RemovalReason } as LineRow["end"];
    const kind = claimedEvent({ end, events: [] });
    return kind === undefined ? -1 : ROW_EVENTS.indexOf(kind);
  });
  if (byReason.every((kind) => kind < 0)) return claimed;
  for (let line = 0; line < count; line += 1) {
    const reason = endReason.codes[line] as number;
    const kind = endKind[line] === 0 && reason >= 0 ? (byReason[reason] as number) : -1;
    if (kind < 0 || ((undated?.[line] ?? 0) & (1 << kind)) !== 0) continue;
    const end = events.from[line + 1] as number;
    let event = events.from[line] as number;
    while (event < end && events.kind[event] !== kind) event += 1;
    if (event === end) claimed[line] = kind;
  }
  return claimed;
}

/** As `ratioIsPossible`, of a line in columns. */
export function ratioAgrees(
  { ratio, lines }: PackedFacts,
  line: number,
  { ratioPossible, ratioAgrees: agrees }: Pick<CountLimits, "ratioPossible" | "ratioAgrees">,
): boolean {
  const own = ratio[line] as number;
  if (isAbsent(own)) return true;
  if (own < (ratioPossible[FEWEST] as number) || own > (ratioPossible[MOST] as number)) return false;
  const written = lines.numbers.writtenRatio[line] as number;
  return isAbsent(written) || Math.abs(written - own) <= agrees * own;
}

/** The values of a line that cannot be together, as bits; nought for none. */
export const HELD = { sizeFr: 1, lumens: 2, insideCm: 4, weightKg: 8 } as const;

/** As `impossibleTogether`, of a line in columns: the bits of what is held. */
export function heldTogether({ numbers, checks }: PackedLines, line: number, limits: CountLimits): number {
  let held = 0;
  const [size, lumens] = [numbers.sizeFr[line] as number, numbers.lumens[line] as number];
  // an absent number is far below one, and no place in a list
  const hasSize = !isAbsent(size);
  if (hasSize && lumens >= 1 && !holdsLumens(size, lumens, limits)) held |= HELD.sizeFr | HELD.lumens;
  if (checks === undefined || checks.has[line] === 0) return held;
  const inside = checks.numbers.insideCm[line] as number;
  const { smallCatheter } = limits;
  if (hasSize && size <= (smallCatheter[FEWEST] as number) && inside > (smallCatheter[MOST] as number))
    held |= HELD.sizeFr | HELD.insideCm;
  const weight = checks.numbers.weightKg[line] as number;
  if (!isAbsent(weight) && !weightFits(weight, numbers.ageYears[line] as number, limits)) held |= HELD.weightKg;
  return held;
}

/** An absent age is below every band, and has the limits of all ages. */
function weightFits(
  weight: number,
  age: number,
  { weightKg, weightAges, weightLeast, weightMost }: CountLimits,
): boolean {
  if (weight < (weightKg[FEWEST] as number) || weight > (weightKg[MOST] as number)) return false;
  let band = weightAges.length - 1;
  while (band >= 0 && age < (weightAges[band] as number)) band -= 1;
  return weight >= (weightLeast[band] ?? -Infinity) && weight <= (weightMost[band] ?? Infinity);
}

/** Whether a line's times are known to the month only: as `isCoarse`. */
export function coarse(checks: PackedChecks | undefined): (line: number) => boolean {
  const month = checks?.words.timeKnownTo.words.indexOf("month") ?? -1;
  if (checks === undefined || month === -1) return () => false;
  const { has, words } = checks;
  const { codes } = words.timeKnownTo;
  return (line) => has[line] === 1 && codes[line] === month;
}

/** Whether a value of a line was written after an event: as `isWrittenAfter`. */
export function writtenAfter(checks: PackedChecks | undefined): (line: number) => boolean {
  if (checks === undefined) return () => false;
  const { has, words } = checks;
  const { codes, words: lists } = words.writtenAfter;
  const some = Uint8Array.from(lists, (list) => Number(list !== "[]"));
  return (line) => has[line] === 1 && (codes[line] as number) >= 0 && some[codes[line] as number] === 1;
}
