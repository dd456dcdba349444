import { dayNumber } from "../../core/calendar/index.ts";
import { localDate, type SurveillanceRule } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ROW_EVENTS, type AuditTable, type LineRow, type RemovalReason } from "../line/index.ts";
import {
  DATE_ALONE,
  END_KINDS,
  groupLines,
  isAbsent,
  isRemoved,
  NEVER,
  NO_MOMENT,
  packedFacts,
  packedOf,
  type LineGroups,
  type PackedFacts,
  type PackedLines,
} from "../packed/index.ts";
import {
  checkRows,
  claimedEvent,
  QUALITY_RULES,
  type CheckedTable,
  type QualityCode,
  type QualityIssue,
} from "./check-table.ts";
import { keptFacts } from "./kept-facts.ts";

/** A table checked in columns: the same issues as `checkTable`, and the facts of every line. */
export interface CheckedColumns {
  readonly issues: readonly QualityIssue[];
  readonly facts: PackedFacts;
  /** 1 where a stop rule took the line out of every figure. */
  readonly stopped: Uint8Array;
  readonly used: number;
  /** The kind of event a reason of removal names although nobody wrote one down; -1 for none. */
  readonly claimed: Int8Array;
  /** The same from the rows, where a rule had to be asked of them. */
  readonly rows: CheckedTable | undefined;
}

interface Kept {
  readonly limits: CountLimits;
  readonly rule: SurveillanceRule;
  readonly checked: CheckedColumns;
}
const CHECKED = new WeakMap<PackedLines, Kept>();

/** Rules that are scanned in columns here; any other rule is asked of the rows, one by one, by `checkRows`. */
const SCANNED: ReadonlySet<string> = new Set<QualityCode>([
  "T1",
  "T2",
  "T3",
  "T4",
  "T5",
  "T6",
  "T8",
  "E1",
  "E2",
  "E3",
  "E4",
  "E5",
  "L1",
  "L2",
  "C1",
] as const);
const IN_PLACE = END_KINDS.indexOf("in place");
const INFECTION = ROW_EVENTS.indexOf("infection");

/** The quality rules of `checkTable` as scans over the columns of a table; kept for a table under the same limits. */
export function checkColumns(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): CheckedColumns {
  const lines = packedOf(table);
  const kept = CHECKED.get(lines);
  if (kept?.limits === limits && kept.rule === rule) return kept.checked;
  const checked = check(table, lines, limits, rule);
  CHECKED.set(lines, { limits, rule, checked });
  return checked;
}

function check(table: AuditTable, lines: PackedLines, limits: CountLimits, rule: SurveillanceRule): CheckedColumns {
  const facts = packedFacts(lines, limits, rule);
  const claimed = claims(lines);
  const stopped = new Uint8Array(lines.count);
  const found = new Map<QualityCode, string[]>();
  const tell = (code: QualityCode, line: number): void => {
    const told = found.get(code);
    if (told) told.push(lines.keyAt(line));
    else found.set(code, [lines.keyAt(line)]);
    if (QUALITY_RULES[code] === "stop" && code !== "E1") stopped[line] = 1;
  };
  const again = repeated(lines);
  const today = dayNumber(localDate(lines.asOf));
  for (let line = 0; line < lines.count; line += 1) {
    checkLine(facts, line, today, limits, tell);
    if ((claimed[line] as number) >= 0) tell("E5", line);
    if (!ratioAgrees(facts, line, limits)) tell("C1", line);
    if (again[line] === 1) tell("L2", line);
  }
  for (const line of repeatedInfections(facts, stopped, rule)) tell("E4", line);
  for (const line of sameVeinAtOnce(facts, stopped)) tell("L1", line);
  const order = Object.keys(QUALITY_RULES) as QualityCode[];
  if (order.some((code) => !SCANNED.has(code))) return asRowsSay(checkRows(table, limits, rule), table, facts, claimed);
  let used = lines.count;
  for (const one of stopped) used -= one;
  const issues = order.flatMap((code): readonly QualityIssue[] => {
    const own = found.get(code);
    return own ? [{ code, severity: QUALITY_RULES[code], lines: own }] : [];
  });
  return { issues, facts, stopped, used, claimed, rows: undefined };
}

/** Where there is a rule that no scan knows, the rows have the word: what they say, in columns. */
function asRowsSay(rows: CheckedTable, table: AuditTable, facts: PackedFacts, claimed: Int8Array): CheckedColumns {
  const stopped = new Uint8Array(facts.lines.count).fill(1);
  const kept = keptFacts(facts, table, rows.facts, stopped);
  return { issues: rows.issues, facts: kept, stopped, used: rows.facts.length, claimed, rows };
}

function checkLine(
  { lines, placedOn, endedOn, lastOn, stays, dwellDays, eventOn, eventOutside, eventEligible }: PackedFacts,
  line: number,
  today: number,
  limits: CountLimits,
  tell: (code: QualityCode, line: number) => void,
): void {
  const [placed, ended] = [placedOn[line] as number, endedOn[line] as number];
  const from = stays.from[line] as number;
  const hasStay = !Number.isNaN(from);
  const noPlacing = placed === NEVER;
  const outFirst = !noPlacing && (!hasStay || (ended !== NEVER && ended < placed));
  const tooLate = placed > today || ended > today;
  if (noPlacing) tell("T3", line);
  if (outFirst) tell("T1", line);
  if (tooLate) tell("T2", line);
  const removed = isRemoved(lines, line);
  const inOrder = hasStay && !noPlacing && !outFirst && !tooLate;
  if (inOrder && removed && (stays.to[line] as number) - from <= 1) tell("T4", line);
  if ((dwellDays[line] as number) > limits.longDwellDays) tell("T5", line);
  if (lines.endKind[line] === IN_PLACE && today - (lastOn[line] as number) > limits.lostDays) tell("T6", line);
  if (removed && (lines.endReason.codes[line] as number) < 0) tell("T8", line);
  let [before, outside, early] = [false, false, false];
  const { from: starts, kind, surveillance } = lines.events;
  for (let event = starts[line] as number; event < (starts[line + 1] as number); event += 1) {
    if (!noPlacing && (eventOn[event] as number) < placed) before = true;
    else if (eventOutside[event] === 1) outside = true;
    else if (kind[event] === INFECTION && surveillance[event] === 1 && eventEligible[event] === 0) early = true;
  }
  if (before) tell("E1", line);
  if (outside) tell("E2", line);
  if (early) tell("E3", line);
}

/** The event each line's reason of removal claims, where none of its kind was written down. */
function claims({ count, endReason, events, endKind }: PackedLines): Int8Array {
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
    if (kind < 0) continue;
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
  if (own < (ratioPossible[0] as number) || own > (ratioPossible[1] as number)) return false;
  const written = lines.numbers.writtenRatio[line] as number;
  return isAbsent(written) || Math.abs(written - own) <= agrees * own;
}

/** 1 for the second and later lines of one key, or of one patient and one minute of placing. */
function repeated({ count, keyAt, keysDiffer, patient, placed }: PackedLines): Uint8Array {
  const again = new Uint8Array(count);
  const { first } = groupLines(
    count,
    (line) => (placed.offset[line] as number) !== NO_MOMENT && (placed.offset[line] as number) !== DATE_ALONE,
    (line) => Math.imul(patient[line] as number, 0x9e3779b1) ^ ((placed.at[line] as number) | 0),
    (a, b) => patient[a] === patient[b] && placed.at[a] === placed.at[b],
  );
  for (let line = 0; line < count; line += 1) if (first[line] !== -1 && first[line] !== line) again[line] = 1;
  if (keysDiffer) return again;
  const seen = new Set<string>();
  for (let line = 0; line < count; line += 1) {
    const key = keyAt(line);
    if (seen.has(key)) again[line] = 1;
    else seen.add(key);
  }
  return again;
}

/** Lines with a surveillance infection inside the repeat frame of an earlier one of the same person. */
function repeatedInfections(
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
function sameVeinAtOnce({ lines, placedOn, stays }: PackedFacts, stopped: Uint8Array): Iterable<number> {
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
      if (after !== undefined && (stays.last[line] as number) > (placedOn[after] as number)) told.add(line).add(after);
    }
  }
  return told;
}
