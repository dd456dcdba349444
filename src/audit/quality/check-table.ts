import { dayNumber } from "../../core/calendar/index.ts";
import {
  dayOnClockOf,
  endOf,
  localDate,
  localDay,
  stayInMinutes,
  type Moment,
  type SurveillanceRule,
} from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import {
  lineFacts,
  ratioOf,
  SEEN_AT_REMOVAL,
  type AuditTable,
  type LineFacts,
  type LineRow,
  type RowEventKind,
} from "../line/index.ts";
import { areTwoStays, badlyReplaced, deadAndAlive, isOneLine, sharedInfections, withoutLost } from "./between-rules.ts";
import {
  impossibleTogether,
  isCoarse,
  isKnownBeforePlaced,
  isWrittenAfter,
  longestUsual,
  withoutHeld,
} from "./row-rules.ts";
import { missingValues, silentMonths, wardDays } from "./table-rules.ts";

/** stop: in no figure until mended; hold: out of the figures it touches; warn: shown and kept. */
export type Severity = "stop" | "hold" | "warn";

export const QUALITY_RULES = {
  T1: "stop",
  T2: "stop",
  T3: "stop",
  T4: "warn",
  T5: "warn",
  T6: "hold",
  T8: "hold",
  E1: "stop",
  E2: "hold",
  E3: "warn",
  E4: "warn",
  E5: "hold",
  L1: "warn",
  L2: "stop",
  C1: "hold",
  T7: "hold",
  T9: "stop",
  E6: "warn",
  L3: "warn",
  C2: "hold",
  C3: "warn",
  C4: "warn",
  D1: "hold",
  D2: "hold",
  D3: "warn",
  T10: "stop",
} as const satisfies Readonly<Record<string, Severity>>;
export type QualityCode = keyof typeof QUALITY_RULES;

/** One rule of the record's quality and the lines that break it. */
export interface QualityIssue {
  readonly code: QualityCode;
  readonly severity: Severity;
  /** Keys of the lines. */
  readonly lines: readonly string[];
  /** Of a rule over the whole table: the values, months or months of wards it speaks of. */
  readonly about?: readonly string[];
}

export interface CheckedTable {
  readonly issues: readonly QualityIssue[];
  /** Rows that no stop rule took out, with their facts. */
  readonly facts: readonly LineFacts[];
  readonly linesGiven: number;
}

/** Reasons of removal that claim an event of a kind. */
const CLAIMS: Readonly<Record<string, RowEventKind>> = {
  infection: "infection",
  clot: "thrombosis",
  ...SEEN_AT_REMOVAL,
};

/**
 * The quality rules over a table; a stopped row is in no figure, and every figure says how many rows it used of all.
 *   T1 out before in, T2 later than the table or before birth, T3 no placing, T4 no dwell, T5 very long or longer than nearly all here, T6 in place and unseen,
 *   T8 no reason, E1 event before placing, E2 event too long after, E3 infection before it could count, E4 repeat,
 *   E5 reason without its event, L1 two lines in one vein at once, L2 the same line twice, C1 impossible ratio,
 *   T7 times known to the month, T9 dead and alive, E6 one infection at two lines, L3 replaced and not meeting,
 *   C2 impossible together, C3 written after the event, C4 missing too often, D1 patient-days missing or too few,
 *   D2 counted apart by hand, D3 months without writing, T10 known here before it was placed
 * What holds a value makes it "not known" in the facts; S1, the small cells of a report that leaves, is core/disclosure's.
 * Holds: any rows. Source: common practice, no source; E3 and E4 as CDC/NHSN, Patient Safety Component Manual, ch. 2, 4.
 */
export function checkRows(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): CheckedTable {
  const kept = CHECKED.get(table);
  if (kept?.limits === limits && kept.rule === rule) return kept.checked;
  const checked = check(table, limits, rule);
  CHECKED.set(table, { limits, rule, checked });
  return checked;
}

/** One table is asked by every figure, chart and page: it is checked once under the same limits. */
const CHECKED = new WeakMap<
  AuditTable,
  { readonly limits: CountLimits; readonly rule: SurveillanceRule; readonly checked: CheckedTable }
>();

function check(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): CheckedTable {
  const found = new Map<QualityCode, string[]>();
  const tell = (code: QualityCode, line: string): void => {
    const lines = found.get(code);
    if (lines) lines.push(line);
    else found.set(code, [line]);
  };
  const asOfDay = dayNumber(localDate(table.asOf));
  const twice = repeatedRows(table.lines);
  const contradicted = deadAndAlive(table.lines);
  const all = table.lines.map((row) => lineFacts(row, table.asOf, limits, rule));
  const dwells = all.flatMap(({ dwellDays }) => (dwellDays === undefined ? [] : [dwellDays]));
  const usual = Math.min(limits.longDwellDays, longestUsual(Float64Array.from(dwells), limits.longDwellShare));
  const own = all.flatMap((read): readonly LineFacts[] => {
    const { row } = read;
    const codes = codesOf(read, table.asOf, usual, limits);
    if (twice.has(row)) codes.add("L2");
    if (contradicted.has(row)) codes.add("T9");
    const held = impossibleTogether(row, limits);
    if (held.size > 0) codes.add("C2");
    for (const code of codes) tell(code, row.key);
    const stopped = [...codes].some((code) => QUALITY_RULES[code] === "stop" && code !== "E1");
    return stopped ? [] : [withoutHeld(read, held)];
  });
  const { keys: shared, lost } = sharedInfections(own);
  const facts = lost.size === 0 ? own : own.map((one) => withoutLost(one, lost.get(one)));
  for (const key of shared) tell("E6", key);
  for (const key of repeatedEvents(facts, rule)) tell("E4", key);
  for (const key of sameVeinAtOnce(facts)) tell("L1", key);
  for (const key of badlyReplaced(table.lines, limits)) tell("L3", key);
  const { unusable, apart } = wardDays(table, facts, limits);
  const whole = {
    C4: missingValues(facts, limits),
    D1: unusable,
    D2: apart,
    D3: silentMonths(facts, asOfDay),
  } as const;
  const order = Object.keys(QUALITY_RULES) as QualityCode[];
  return {
    issues: order.flatMap((code): readonly QualityIssue[] => {
      if (isWhole(code)) {
        const { about, lines } = whole[code];
        return about.length > 0 ? [{ code, severity: QUALITY_RULES[code], lines, about }] : [];
      }
      const lines = found.get(code);
      return lines ? [{ code, severity: QUALITY_RULES[code], lines }] : [];
    }),
    facts,
    linesGiven: table.lines.length,
  };
}

const isWhole = (code: QualityCode): code is "C4" | "D1" | "D2" | "D3" => ["C4", "D1", "D2", "D3"].includes(code);

function codesOf(facts: LineFacts, asOf: Moment, usualDays: number, limits: CountLimits): Set<QualityCode> {
  const { row, placedOn, endedOn, dwellDays, events } = facts;
  const codes = new Set<QualityCode>();
  if (placedOn === undefined) codes.add("T3");
  else if (facts.stay === undefined || (endedOn !== undefined && endedOn < placedOn)) codes.add("T1");
  const asOfDay = dayNumber(localDate(asOf));
  const unborn = isKnown(row.ageYears) && row.ageYears < 0;
  // by the clock of each moment: east of the table's own the date turns first
  const isLater = (at: Moment | undefined): boolean =>
    at !== undefined && dayOnClockOf(at, at) > dayOnClockOf(asOf, at);
  const { end, knownFrom } = row;
  const last = end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown;
  if ([row.placed, knownFrom, last].some(isLater) || unborn) codes.add("T2");
  if (facts.stay && codes.size === 0) {
    const span = stayInMinutes(facts.stay);
    if (typeof span !== "string" && span.to - span.from <= 1 && row.end.kind === "removed") codes.add("T4");
  }
  if (dwellDays !== undefined && dwellDays > usualDays) codes.add("T5");
  if (row.end.kind === "in place" && asOfDay - dayNumber(localDate(row.end.lastKnown)) > limits.lostDays)
    codes.add("T6");
  if (row.end.kind === "removed" && !isKnown(row.end.reason)) codes.add("T8");
  const knownOn = knownFrom && localDay(knownFrom);
  for (const { event, on, outside, eligible } of events) {
    if (placedOn !== undefined && on < placedOn) codes.add("E1");
    // what came before the line did is its history elsewhere, and no fault
    else if (knownOn !== undefined && on < knownOn) continue;
    else if (outside) codes.add("E2");
    else if (event.kind === "infection" && event.surveillance === true && !eligible) codes.add("E3");
  }
  if (claimedEvent(row) !== undefined) codes.add("E5");
  if (!ratioIsPossible(row, limits)) codes.add("C1");
  if (isKnownBeforePlaced(row)) codes.add("T10");
  if (isCoarse(row)) codes.add("T7");
  if (isWrittenAfter(row)) codes.add("C3");
  return codes;
}

/** The kind of event that a reason of removal names by itself. */
export const claimOf = (reason: string): RowEventKind | undefined => CLAIMS[reason];

/** The kind of event a reason of removal names although nobody wrote one down, not even without its day. */
export function claimedEvent({
  end,
  events,
  undated = [],
}: Pick<LineRow, "end" | "events" | "undated">): RowEventKind | undefined {
  const claimed = end.kind === "removed" && isKnown(end.reason) ? claimOf(end.reason) : undefined;
  return claimed && !undated.includes(claimed) && !events.some(({ kind }) => kind === claimed) ? claimed : undefined;
}

/** Whether the ratio of a row can be believed; a row without one is not at fault. */
export function ratioIsPossible(row: LineRow, limits: Pick<CountLimits, "ratioPossible" | "ratioAgrees">): boolean {
  const ratio = ratioOf(row);
  if (!isKnown(ratio)) return true;
  const [least, most] = limits.ratioPossible as [number, number];
  if (ratio < least || ratio > most) return false;
  return !isKnown(row.writtenRatio) || Math.abs(row.writtenRatio - ratio) <= limits.ratioAgrees * ratio;
}

/** The second and later rows of one key, or of one patient and one minute of placing that are no two stays of the line. */
function repeatedRows(rows: readonly LineRow[]): ReadonlySet<LineRow> {
  const keys = new Set<string>();
  const stays = new Map<string, LineRow[]>();
  return new Set(
    rows.filter((row) => {
      const { patient, placed, key } = row;
      const again = keys.has(key);
      keys.add(key);
      if (placed?.precision !== "minute") return again;
      const place = `${patient}|${placed.utc}`;
      if (stays.get(place)?.some((one) => !areTwoStays(one, row))) return true;
      grow(stays, place, row);
      return again;
    }),
  );
}

function repeatedEvents(facts: readonly LineFacts[], rule: SurveillanceRule): ReadonlySet<string> {
  const byPatient = new Map<string, { readonly on: number; readonly key: string }[]>();
  for (const { row, events } of facts)
    for (const { event, on, outside } of events)
      if (event.kind === "infection" && !outside && event.surveillance === true)
        grow(byPatient, row.patient, { on, key: row.key });
  const keys = new Set<string>();
  for (const events of byPatient.values()) {
    let kept = -Infinity;
    for (const { on, key } of events.sort((a, b) => a.on - b.on)) {
      if (on - kept < rule.repeatFrameDays) keys.add(key);
      else kept = on;
    }
  }
  return keys;
}

function grow<Value>(lists: Map<string, Value[]>, key: string, value: Value): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}

function sameVeinAtOnce(facts: readonly LineFacts[]): ReadonlySet<string> {
  const byPlace = new Map<string, LineFacts[]>();
  for (const one of facts) {
    const { side, vein, patient } = one.row;
    if (!isKnown(side) || !isKnown(vein) || !one.stay) continue;
    const place = `${patient}|${side}|${vein}`;
    grow(byPlace, place, one);
  }
  const keys = new Set<string>();
  for (const lines of byPlace.values()) {
    const sorted = lines.sort((a, b) => (a.placedOn as number) - (b.placedOn as number));
    for (const [at, line] of sorted.entries()) {
      const next = sorted[at + 1];
      const last = line.stay && dayNumber(localDate(endOf(line.stay)));
      if (next && isOneLine(line.row, next.row)) continue;
      if (next && last !== undefined && last > (next.placedOn as number)) keys.add(line.row.key).add(next.row.key);
    }
  }
  return keys;
}
