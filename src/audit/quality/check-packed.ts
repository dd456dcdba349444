import { dayNumber } from "../../core/calendar/index.ts";
import { localDate, type SurveillanceRule } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { AuditTable } from "../line/index.ts";
import { packedFacts, packedOf, type PackedFacts, type PackedLines } from "../packed/index.ts";
import { QUALITY_RULES, type QualityCode, type QualityIssue } from "./check-table.ts";
import { heldLines, withoutHeld, withoutLost } from "./hold-columns.ts";
import {
  badlyReplaced,
  deadAndAlive,
  repeated,
  repeatedInfections,
  sameVeinAtOnce,
  sharedInfections,
} from "./scan-between.ts";
import { checkLine, claims, coarse, ratioAgrees, writtenAfter } from "./scan-lines.ts";
import { missingValues, silentMonths, wardDays } from "./scan-table.ts";
import { longestUsual } from "./row-rules.ts";
import type { TableTold } from "./table-rules.ts";

/** A table checked in columns: the same issues as `checkRows`, and the facts of every line. */
export interface CheckedColumns {
  readonly issues: readonly QualityIssue[];
  /** Without the values that a hold rule took, the stays of times known to the month and the events of another line. */
  readonly facts: PackedFacts;
  /** 1 where a stop rule took the line out of every figure. */
  readonly stopped: Uint8Array;
  readonly used: number;
  /** The kind of event a reason of removal names although nobody wrote one down; -1 for none. */
  readonly claimed: Int8Array;
  /** Lines with a value that is not known in the facts because it is held. */
  readonly held: ReadonlySet<number>;
}

interface Kept {
  readonly limits: CountLimits;
  readonly rule: SurveillanceRule;
  readonly checked: CheckedColumns;
}
const CHECKED = new WeakMap<PackedLines, Kept>();

/** The quality rules of `checkRows` as scans over the columns of a table; kept for a table under the same limits. */
export function checkColumns(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): CheckedColumns {
  const lines = packedOf(table);
  const kept = CHECKED.get(lines);
  if (kept?.limits === limits && kept.rule === rule) return kept.checked;
  const steps = check(lines, limits, rule);
  let step = steps.next();
  while (!step.done) step = steps.next();
  const checked = step.value;
  CHECKED.set(lines, { limits, rule, checked });
  return checked;
}

/** Whether a table was checked under these limits: then no figure of it waits for the rules. */
export function isChecked(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): boolean {
  const kept = CHECKED.get(packedOf(table));
  return kept?.limits === limits && kept.rule === rule;
}

/**
 * The work of `checkColumns` in steps, for a caller that must answer between them. At its end the table is checked.
 * Holds: any table; the same answer as `checkColumns`, which runs these very steps at once.
 */
export function* checkInSteps(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): Generator<undefined> {
  if (isChecked(table, limits, rule)) return;
  const lines = packedOf(table);
  const checked = yield* check(lines, limits, rule);
  CHECKED.set(lines, { limits, rule, checked });
}

/** Lines by the rule they break, and what the rules over the whole table tell. */
interface Told {
  readonly lines: Map<QualityCode, number[]>;
  readonly whole: Partial<Record<QualityCode, TableTold>>;
}

function* check(
  lines: PackedLines,
  limits: CountLimits,
  rule: SurveillanceRule,
): Generator<undefined, CheckedColumns, undefined> {
  const found: Told["lines"] = new Map();
  const stopped = new Uint8Array(lines.count);
  const tell = (code: QualityCode, line: number): void => {
    const told = found.get(code);
    if (told) told.push(line);
    else found.set(code, [line]);
    if (QUALITY_RULES[code] === "stop" && code !== "E1") stopped[line] = 1;
  };
  const read = packedFacts(lines, limits, rule);
  yield;
  const claimed = claims(lines);
  const today = dayNumber(localDate(lines.asOf));
  yield* checkEach(read, claimed, today, limits, tell);
  const held = heldLines(lines, limits);
  for (const { line } of held) tell("C2", line);
  // what the rules hold is gone before a line is held to another
  const own = withoutHeld(read, held, stopped);
  const { told: shared, lost } = sharedInfections(own, stopped);
  const facts = withoutLost(own, lost);
  for (const line of shared) tell("E6", line);
  yield;
  for (const line of repeatedInfections(facts, stopped, rule)) tell("E4", line);
  yield;
  for (const line of sameVeinAtOnce(facts, stopped)) tell("L1", line);
  yield;
  // as the rows, of lines as they were written: a line that was taken out may still be the one that was replaced
  for (const line of badlyReplaced(read, limits)) tell("L3", line);
  yield;
  const { unusable, apart } = wardDays(facts, stopped, limits);
  yield;
  const lacking = missingValues(facts, stopped, limits);
  yield;
  const whole = { C4: lacking, D1: unusable, D2: apart, D3: silentMonths(facts, stopped, today) };
  yield;
  let used = lines.count;
  for (const one of stopped) used -= one;
  const issues = issuesOf(lines, { lines: found, whole });
  return { issues, facts, stopped, used, claimed, held: new Set(held.map(({ line }) => line)) };
}

const LINES_IN_A_STEP = 16_384;

/** The rules that each line breaks alone or by coming twice. */
function* checkEach(
  facts: PackedFacts,
  claimed: Int8Array,
  today: number,
  limits: CountLimits,
  tell: (code: QualityCode, line: number) => void,
): Generator<undefined> {
  const { lines } = facts;
  const again = repeated(lines);
  yield;
  const contradicted = deadAndAlive(facts);
  yield;
  // where there is no dwell there is no number
  const dwells = facts.dwellDays.filter((days) => !Number.isNaN(days));
  const usual = Math.min(limits.longDwellDays, longestUsual(dwells, limits.longDwellShare));
  const [isCoarse, isWrittenAfter] = [coarse(lines.checks), writtenAfter(lines.checks)];
  for (let line = 0; line < lines.count; line += 1) {
    if (line % LINES_IN_A_STEP === 0) yield;
    checkLine(facts, line, today, usual, limits, tell);
    if ((claimed[line] as number) >= 0) tell("E5", line);
    if (!ratioAgrees(facts, line, limits)) tell("C1", line);
    if (isCoarse(line)) tell("T7", line);
    if (isWrittenAfter(line)) tell("C3", line);
    if (again[line] === 1) tell("L2", line);
    if (contradicted?.[line] === 1) tell("T9", line);
  }
}

function issuesOf({ keyAt }: PackedLines, { lines: found, whole }: Told): readonly QualityIssue[] {
  return (Object.keys(QUALITY_RULES) as QualityCode[]).flatMap((code): readonly QualityIssue[] => {
    const severity = QUALITY_RULES[code];
    const over = whole[code];
    if (over) return over.about.length > 0 ? [{ code, severity, lines: over.lines, about: over.about }] : [];
    const own = found.get(code)?.map((line) => keyAt(line));
    // a line may be in two pairs that do not meet, and is told once
    return own ? [{ code, severity, lines: code === "L3" ? [...new Set(own)] : own }] : [];
  });
}
