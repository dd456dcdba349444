import { MINUTES_PER_DAY, NOON, type SurveillanceRule } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ROW_EVENTS } from "../line/index.ts";
import {
  DATE_ALONE,
  dateAt,
  END_KINDS,
  groupLines,
  isRemoved,
  NEVER,
  NO_MOMENT,
  type LineGroups,
  type PackedFacts,
  type PackedLines,
  type PackedMoments,
} from "../packed/index.ts";

// The rules that hold one line to another, as scans over columns.

const INFECTION = ROW_EVENTS.indexOf("infection");
const HANDED_ON = END_KINDS.indexOf("handed on");

const isTimed = ({ offset }: PackedMoments, line: number): boolean =>
  (offset[line] as number) !== NO_MOMENT && (offset[line] as number) !== DATE_ALONE;

/** As `cameBack`: handed on with the one row, known again from then or later with the other. */
function cameBack({ endKind, end, knownFrom }: PackedLines, left: number, again: number): boolean {
  if (endKind[left] !== HANDED_ON || (knownFrom.offset[again] as number) === NO_MOMENT) return false;
  return isTimed(end, left) && isTimed(knownFrom, again)
    ? (knownFrom.at[again] as number) >= (end.at[left] as number)
    : dateAt(knownFrom, again) >= dateAt(end, left);
}

/** 1 for the second and later lines of one key, or of one patient and one minute of placing that are no two stays of it. */
export function repeated(lines: PackedLines): Uint8Array {
  const { count, keyAt, keysDiffer, patient, placed } = lines;
  const again = new Uint8Array(count);
  const { first, next } = groupLines(
    count,
    (line) => isTimed(placed, line),
    (line) => Math.imul(patient[line] as number, 0x9e3779b1) ^ ((placed.at[line] as number) | 0),
    (a, b) => patient[a] === patient[b] && placed.at[a] === placed.at[b],
  );
  for (let head = 0; head < count; head += 1) {
    if (first[head] !== head || next[head] === -1) continue;
    const stays = [head];
    for (let line = next[head] as number; line !== -1; line = next[line] as number)
      if (stays.every((one) => cameBack(lines, one, line) || cameBack(lines, line, one))) stays.push(line);
      else again[line] = 1;
  }
  if (keysDiffer) return again;
  const seen = new Set<string>();
  for (let line = 0; line < count; line += 1) {
    const key = keyAt(line);
    if (seen.has(key)) again[line] = 1;
    else seen.add(key);
  }
  return again;
}

const numberOfPatients = ({ patient }: PackedLines): number => {
  let most = -1;
  for (const one of patient) if (one > most) most = one;
  return most + 1;
};

/** The code of a reason of removal; NaN, which no line has, where no line came out for it. */
const outOf = ({ endReason }: PackedLines, reason: string): number => {
  const code = endReason.words.indexOf(reason);
  return code === -1 ? Number.NaN : code;
};

/** As `deadAndAlive`: 1 for each line of a person dead and alive. */
export function deadAndAlive({ lines, placedOn, lastOn }: PackedFacts): Uint8Array | undefined {
  const { count, patient, endReason } = lines;
  const death = outOf(lines, "died");
  if (Number.isNaN(death)) return undefined;
  const died = (line: number): boolean => isRemoved(lines, line) && endReason.codes[line] === death;
  const firstDeath = new Int32Array(numberOfPatients(lines)).fill(-1);
  for (let line = 0; line < count; line += 1) {
    if (!died(line)) continue;
    const known = firstDeath[patient[line] as number] as number;
    if (known === -1 || (lastOn[line] as number) < (lastOn[known] as number))
      firstDeath[patient[line] as number] = line;
  }
  const told = new Uint8Array(count);
  for (let line = 0; line < count; line += 1) {
    const first = firstDeath[patient[line] as number] as number;
    if (first === -1) continue;
    const lastAlive = Math.max(placedOn[line] as number, (lastOn[line] as number) - Number(died(line)));
    if (lastAlive <= (lastOn[first] as number)) continue;
    told[line] = 1;
    told[first] = 1;
  }
  return told;
}

/**
 * As `sharedInfections`: the lines told, and the events that count for another line.
 * Holds: `stopped` lines take no part.
 */
export function sharedInfections(
  { lines, placedOn, eventOn, eventOutside }: PackedFacts,
  stopped: Uint8Array,
): { readonly told: ReadonlySet<number>; readonly lost: readonly number[] } {
  const { from, kind, pairedCulture } = lines.events;
  const { patient } = lines;
  const events: number[] = [];
  const lineOf: number[] = [];
  for (let line = 0; line < lines.count; line += 1) {
    if (stopped[line] === 1) continue;
    for (let event = from[line] as number; event < (from[line + 1] as number); event += 1)
      if (kind[event] === INFECTION && eventOutside[event] === 0) {
        events.push(event);
        lineOf.push(line);
      }
  }
  const person = (at: number) => patient[lineOf[at] as number] as number;
  const day = (at: number) => eventOn[events[at] as number] as number;
  const { first, next } = groupLines(
    events.length,
    () => true,
    (at) => Math.imul(person(at), 0x9e3779b1) ^ day(at),
    (a, b) => person(a) === person(b) && day(a) === day(b),
  );
  const told = new Set<number>();
  const lost: number[] = [];
  const paired = (at: number) => Number(pairedCulture[events[at] as number] === 1);
  const placed = (at: number) => placedOn[lineOf[at] as number] as number;
  for (const head of events.keys()) {
    if (first[head] !== head || next[head] === -1) continue;
    let [winner, many] = [head, false];
    for (let at = next[head] as number; at !== -1; at = next[at] as number) {
      if (lineOf[at] !== lineOf[head]) many = true;
      const better = paired(at) - paired(winner) || placed(winner) - placed(at);
      if (better > 0) winner = at;
    }
    if (!many) continue;
    for (let at = head; at !== -1; at = next[at] as number) {
      told.add(lineOf[at] as number);
      if (lineOf[at] !== lineOf[winner]) lost.push(events[at] as number);
    }
  }
  return { told, lost };
}

/** Lines with a surveillance infection inside the repeat frame of an earlier one of the same person. */
export function repeatedInfections(
  { lines, eventOn, eventOutside }: PackedFacts,
  stopped: Uint8Array,
  { repeatFrameDays }: SurveillanceRule,
): Iterable<number> {
  const byPatient = new Map<number, { readonly on: number; readonly line: number }[]>();
  const { from, kind, surveillance } = lines.events;
  for (let line = 0; line < lines.count; line += 1) {
    if (stopped[line] === 1) continue;
    for (let event = from[line] as number; event < (from[line + 1] as number); event += 1) {
      if (kind[event] !== INFECTION || eventOutside[event] === 1 || surveillance[event] !== 1) continue;
      const patient = lines.patient[line] as number;
      const own = byPatient.get(patient);
      const seen = { on: eventOn[event] as number, line };
      if (own) own.push(seen);
      else byPatient.set(patient, [seen]);
    }
  }
  const told = new Set<number>();
  for (const events of byPatient.values()) {
    let kept = -Infinity;
    for (const { on, line } of events.sort((a, b) => a.on - b.on)) {
      if (on - kept < repeatFrameDays) told.add(line);
      else kept = on;
    }
  }
  return told;
}

/** Lines of one person in one vein of one arm whose days overlap the next one's. */
export function sameVeinAtOnce({ lines, placedOn, stays }: PackedFacts, stopped: Uint8Array): Iterable<number> {
  const { count, patient, words } = lines;
  const [side, vein] = [words.side.codes, words.vein.codes];
  const { first, next }: LineGroups = groupLines(
    count,
    (line) =>
      stopped[line] === 0 &&
      (side[line] as number) >= 0 &&
      (vein[line] as number) >= 0 &&
      !Number.isNaN(stays.from[line]),
    (line) => Math.imul(patient[line] as number, 0x9e3779b1) ^ ((side[line] as number) << 4) ^ (vein[line] as number),
    (a, b) => patient[a] === patient[b] && side[a] === side[b] && vein[a] === vein[b],
  );
  const told = new Set<number>();
  for (let head = 0; head < count; head += 1) {
    if (first[head] !== head || next[head] === -1) continue;
    const group: number[] = [];
    for (let line = head; line !== -1; line = next[line] as number) group.push(line);
    group.sort((a, b) => (placedOn[a] as number) - (placedOn[b] as number));
    for (const [at, line] of group.entries()) {
      const after = group[at + 1];
      // two stays of one line
      if (after !== undefined && isTimed(lines.placed, line) && isTimed(lines.placed, after))
        if (lines.placed.at[line] === lines.placed.at[after]) continue;
      if (after !== undefined && (stays.last[line] as number) > (placedOn[after] as number)) told.add(line).add(after);
    }
  }
  return told;
}

const HOUR = 60;

/** Minutes of UTC; a date alone is its noon. */
const minuteOf = ({ at, offset }: PackedMoments, line: number): number =>
  offset[line] === DATE_ALONE ? (at[line] as number) * MINUTES_PER_DAY + NOON : (at[line] as number);

/** As `badlyReplaced`: the pairs of lines told, replaced and replacing, one after the other. */
export function badlyReplaced(
  { lines, endedOn }: PackedFacts,
  { replacedGapDays, replacedOverlapHours }: CountLimits,
): readonly number[] {
  const { count, patient, placed, end, endReason, keyAt } = lines;
  const told: number[] = [];
  const isPlaced = (line: number): boolean => placed.offset[line] !== NO_MOMENT;
  const tellApart = (old: number, next: number, gap: number): void => {
    if (!(gap <= replacedGapDays * MINUTES_PER_DAY && gap >= -replacedOverlapHours * HOUR)) told.push(old, next);
  };
  const linked = new Set<string>();
  for (const [next, old] of writtenLinks(lines)) {
    linked.add(keyAt(old));
    if (!isPlaced(next)) continue;
    const ended = endedOn[old] !== NEVER;
    tellApart(old, next, ended ? minuteOf(placed, next) - minuteOf(end, old) : -Infinity);
  }
  const replaced = outOf(lines, "replaced");
  if (Number.isNaN(replaced)) return told;
  let later: Int32Array | undefined;
  const firstOf = new Int32Array(numberOfPatients(lines)).fill(-1);
  for (let old = 0; old < count; old += 1) {
    if (endReason.codes[old] !== replaced || !isRemoved(lines, old) || !isPlaced(old)) continue;
    if (linked.size > 0 && linked.has(keyAt(old))) continue;
    later ??= chained(patient, firstOf);
    const since = minuteOf(placed, old);
    const out = minuteOf(end, old);
    let [nearest, least] = [-1, 0];
    for (let next = firstOf[patient[old] as number] as number; next !== -1; next = later[next] as number) {
      if (!isPlaced(next) || !(minuteOf(placed, next) > since)) continue;
      const gap = minuteOf(placed, next) - out;
      if (nearest === -1 || Math.abs(gap) < Math.abs(least)) [nearest, least] = [next, gap];
    }
    if (nearest !== -1) tellApart(old, nearest, least);
  }
  return told;
}

/** The lines of each person in their order: the first of each in `firstOf`, and of each line the next, or -1. */
function chained(patient: Int32Array, firstOf: Int32Array): Int32Array {
  const next = new Int32Array(patient.length);
  for (let line = patient.length - 1; line >= 0; line -= 1) {
    const own = patient[line] as number;
    next[line] = firstOf[own] as number;
    firstOf[own] = line;
  }
  return next;
}

/** Each line that names the one it replaced, with that one; of two lines with one key the later. */
function writtenLinks({ checks, count, keyAt }: PackedLines): readonly (readonly [number, number])[] {
  if (checks === undefined || checks.words.replaces.words.length === 0) return [];
  const { codes, words } = checks.words.replaces;
  const places = new Map(words.map((key) => [key, -1]));
  for (let line = 0; line < count; line += 1) {
    const key = keyAt(line);
    if (places.has(key)) places.set(key, line);
  }
  const links: (readonly [number, number])[] = [];
  for (let line = 0; line < count; line += 1) {
    const code = codes[line] as number;
    const old = checks.has[line] === 1 && code >= 0 ? (places.get(words[code] as string) as number) : -1;
    if (old !== -1) links.push([line, old]);
  }
  return links;
}
