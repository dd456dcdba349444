import type { SurveillanceRule } from "../../core/dwell/index.ts";
import { daysKept, ROW_EVENTS } from "../line/index.ts";
import { mergesRepeats, type Measure } from "../measure/index.ts";
import { NEVER, undatedAt, type PackedFacts } from "../packed/index.ts";
import type { CheckedColumns } from "../quality/index.ts";
import { mayBe } from "./event-count.ts";

type EventNumerator = Extract<Measure["numerator"], { readonly count: "events" }>;

/** Events with their lines, in the order of the lines. */
export interface EventList {
  readonly lines: number[];
  readonly on: number[];
}

/** All events of a measure whenever they were, and those that may count: flag not set, day not known, or only claimed by a reason. */
export interface MeasureEvents {
  readonly yes: EventList;
  readonly may: EventList;
}

const INFECTION = ROW_EVENTS.indexOf("infection");
const [YES, NO, OPEN] = [1, 0, 2];

/** As `counts`, of an event in columns: 1 counts, 0 does not, 2 nobody said. */
export function eventAnswer(facts: PackedFacts, numerator: EventNumerator): (event: number) => number {
  const { kind, clinical, surveillance, pairedCulture, mucosal } = facts.lines.events;
  const asked = numerator.event === "any" ? -1 : ROW_EVENTS.indexOf(numerator.event);
  const { flag } = numerator;
  const said = (column: Int8Array, event: number): number => {
    const answer = column[event] as number;
    return answer < 0 ? OPEN : answer;
  };
  return (event) => {
    const own = kind[event] as number;
    if (asked !== -1 && own !== asked) return NO;
    if (own !== INFECTION) return flag === "any" ? YES : NO;
    if (flag === "surveillance") return facts.eventEligible[event] === 0 ? NO : said(surveillance, event);
    if (flag === "surveillance without mucosal barrier") {
      if (facts.eventEligible[event] === 0 || surveillance[event] === 0 || mucosal[event] === 1) return NO;
      return surveillance[event] === 1 && mucosal[event] === 0 ? YES : OPEN;
    }
    if (flag === "paired culture") return said(pairedCulture, event);
    if (flag === "clinical") return said(clinical, event);
    // one that the ward and the definition both denied is no infection at all
    return clinical[event] === 0 && surveillance[event] !== 1 ? NO : YES;
  };
}

/**
 * The events of a measure among some lines; `within` the days on which an open one may count. A line whose times are
 * known to the month (T7) has no days, so its events are in no rate either.
 */
export function measureEvents(
  { facts, claimed }: CheckedColumns,
  among: Int32Array,
  numerator: EventNumerator,
  opens: number,
  closes: number,
): MeasureEvents {
  const answer = eventAnswer(facts, numerator);
  const { from } = facts.lines.events;
  const claims = numerator.event === "any" ? -1 : ROW_EVENTS.indexOf(numerator.event);
  const [yes, may]: readonly EventList[] = [
    { lines: [], on: [] },
    { lines: [], on: [] },
  ] as const;
  const within = (on: number) => on >= opens && on < closes;
  const put = ({ lines, on }: EventList, line: number, day: number): void => {
    lines.push(line);
    on.push(day);
  };
  for (const line of among) {
    if (Number.isNaN(facts.stays.from[line])) continue;
    for (let event = from[line] as number; event < (from[line + 1] as number); event += 1) {
      if (facts.eventOutside[event] === 1) continue;
      const verdict = answer(event);
      const on = facts.eventOn[event] as number;
      if (verdict === YES) put(yes, line, on);
      else if (verdict === OPEN && within(on)) put(may, line, on);
    }
    const claim = claimed[line] as number;
    const ended = facts.endedOn[line] as number;
    if (claim >= 0 && (claims === -1 || claim === claims) && within(ended)) put(may, line, ended);
    const first = Math.max(opens, facts.placedOn[line] as number);
    if (facts.lines.undated === undefined || first >= closes || (ended !== NEVER && ended < opens)) continue;
    for (const kind of undatedAt(facts.lines, line)) if (mayBe(kind, numerator)) put(may, line, first);
  }
  return { yes: yes, may: may };
}

/**
 * Surveillance infections of a person inside the repeat frame fall on the first of them, across lines; persons in the
 * order of their first event.
 */
export function onceInFrame({ lines, on }: EventList, { facts }: CheckedColumns, rule: SurveillanceRule): EventList {
  const byPatient = new Map<number, number[]>();
  for (const [at, line] of lines.entries()) {
    const patient = facts.lines.patient[line] as number;
    const own = byPatient.get(patient);
    if (own) own.push(at);
    else byPatient.set(patient, [at]);
  }
  const merged: EventList = { lines: [], on: [] };
  for (const own of byPatient.values()) {
    const kept =
      own.length === 1
        ? undefined
        : new Set(
            daysKept(
              own.map((at) => on[at] as number),
              rule,
            ),
          );
    for (const at of own) {
      if (kept && !kept.delete(on[at] as number)) continue;
      merged.lines.push(lines[at] as number);
      merged.on.push(on[at] as number);
    }
  }
  return merged;
}

/**
 * The events of a measure in a period, repeats on the first of them: as `countEvents` counts. The lines are all that no
 * rule stopped, or those of them with events: of a part alone a repeat of an infection elsewhere would stand for itself.
 */
export function countedEvents(
  checked: CheckedColumns,
  among: Int32Array,
  numerator: EventNumerator,
  { opens, closes }: { readonly opens: number; readonly closes: number },
  { surveillance }: { readonly surveillance: SurveillanceRule },
): EventList {
  const { yes } = measureEvents(checked, among, numerator, opens, closes);
  const merged = mergesRepeats(numerator.flag) ? onceInFrame(yes, checked, surveillance) : yes;
  return eventsWithin(merged, opens, closes);
}

/** Of some events those in a period, which holds its first day and not its last. */
export function eventsWithin({ lines, on }: EventList, opens: number, closes: number): EventList {
  const kept: EventList = { lines: [], on: [] };
  for (let at = 0; at < on.length; at += 1) {
    const day = on[at] as number;
    if (day < opens || day >= closes) continue;
    kept.lines.push(lines[at] as number);
    kept.on.push(day);
  }
  return kept;
}
