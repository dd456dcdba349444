import { dayNumber } from "../../core/calendar/index.ts";
import type { SurveillanceRule } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { LineFacts } from "../line/index.ts";
import { isUnknownEnd, NEVER, type PackedFacts } from "../packed/index.ts";
import type { CheckedColumns } from "../quality/index.ts";
import type { Period } from "./figure.ts";

/** What an audit is held to: the local limits and the surveillance rule in force. */
export interface AuditRules {
  readonly limits: CountLimits;
  readonly surveillance: SurveillanceRule;
}

/** A period with the lines that matter to it picked out once; every measure and every part reads these. */
export interface Scene extends AuditRules {
  readonly period: Period;
  readonly opens: number;
  readonly closes: number;
  readonly provisionalDay: number;
  readonly checked: CheckedColumns;
  readonly facts: PackedFacts;
  /** Lines that could matter at all, ascending. */
  readonly lines: Int32Array;
  /** Of these, those that can have a day in the period. */
  readonly near: Int32Array;
  /** Of these, those that nobody knows the end of and that were last seen before the period's end. */
  readonly lost: Int32Array;
  /** Of the lines, those with an event or with a reason of removal that claims one. */
  readonly eventful: Int32Array;
}

/** Far more than any window after removal or any repeat frame: no event of an older line can touch the period. */
const LONGEST_AFTER = 400;

/** Two days on each side: more than any offset can move an edge of a stay. */
const NEAR = 2;

export function sceneOf(checked: CheckedColumns, period: Period, provisionalDay: number, rules: AuditRules): Scene {
  const [opens, closes] = [dayNumber(period.from), dayNumber(period.to)];
  const { facts, stopped, claimed } = checked;
  const { placedOn, endedOn } = facts;
  const { undated } = facts.lines;
  const { from } = facts.lines.events;
  const [lines, near] = [new Int32Array(checked.used), new Int32Array(checked.used)];
  const lost: number[] = [];
  const eventful: number[] = [];
  let [many, close] = [0, 0];
  for (let line = 0; line < stopped.length; line += 1) {
    const [placed, ended] = [placedOn[line] as number, endedOn[line] as number];
    if (stopped[line] === 1 || placed >= closes || (ended !== NEVER && ended < opens - LONGEST_AFTER)) continue;
    lines[many] = line;
    many += 1;
    if (from[line] !== from[line + 1] || (claimed[line] as number) >= 0 || undated?.[line]) eventful.push(line);
    if ((facts.stays.first[line] as number) >= closes || (ended !== NEVER && ended < opens - NEAR)) continue;
    near[close] = line;
    close += 1;
    if (!Number.isNaN(facts.stays.from[line]) && isLostBefore(facts, line, closes)) lost.push(line);
  }
  return {
    ...rules,
    period,
    opens,
    closes,
    provisionalDay,
    checked,
    facts,
    lines: lines.subarray(0, many),
    near: near.subarray(0, close),
    lost: Int32Array.from(lost),
    eventful: Int32Array.from(eventful),
  };
}

/** Nobody knows what became of it, and it was last seen before a day: what happened on that day may be hidden. */
export const isLostBefore = ({ lines, lastOn }: PackedFacts, line: number, on: number): boolean =>
  isUnknownEnd(lines, line) && (lastOn[line] as number) < on;

/** Lines that can have a day in the period; what is far from it is passed over unread. */
export const isNear = ({ placedOn, endedOn }: LineFacts, { from, to }: Period): boolean =>
  placedOn !== undefined &&
  placedOn < dayNumber(to) + NEAR &&
  (endedOn === undefined || endedOn >= dayNumber(from) - NEAR);
