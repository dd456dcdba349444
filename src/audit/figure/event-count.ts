import { dayNumber } from "../../core/calendar/index.ts";
import type { SurveillanceRule } from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import { daysKept, type DatedEvent, type LineFacts, type RowEventKind } from "../line/index.ts";
import { mergesRepeats, type Measure } from "../measure/index.ts";
import { claimedEvent } from "../quality/index.ts";
import type { Period } from "./figure.ts";

type EventNumerator = Extract<Measure["numerator"], { readonly count: "events" }>;

export interface CountedEvent {
  readonly line: LineFacts;
  readonly on: number;
}

export interface EventCount {
  readonly counted: readonly CountedEvent[];
  /** Events whose flag nobody set, those without a day, and reasons of removal that name one nobody wrote down: they may count. */
  readonly mayCount: readonly CountedEvent[];
}

/** Whether an event counts under a flag; undefined when nobody said. */
export function counts({ event, eligible }: DatedEvent, { event: kind, flag }: EventNumerator): boolean | undefined {
  if (kind !== "any" && event.kind !== kind) return false;
  if (event.kind !== "infection") return flag === "any";
  if (flag === "surveillance") return !eligible ? false : isKnown(event.surveillance) ? event.surveillance : undefined;
  if (flag === "surveillance without mucosal barrier") {
    if (!eligible || event.surveillance === false) return false;
    const { mucosal } = event;
    if (mucosal === true) return false;
    return event.surveillance === true && mucosal === false ? true : undefined;
  }
  if (flag === "paired culture") return isKnown(event.pairedCulture) ? event.pairedCulture : undefined;
  if (flag === "clinical") return isKnown(event.clinical) ? event.clinical : undefined;
  // one that the ward and the definition both denied is no infection at all
  return !(event.clinical === false && event.surveillance !== true);
}

/** Whether an event without a day may count: only an infection has flags, and nobody set one of this. */
export const mayBe = (kind: RowEventKind, { event, flag }: EventNumerator): boolean =>
  (event === "any" || event === kind) && (kind === "infection" || flag === "any");

/**
 * The events of a measure in a period, by their own local date. Surveillance infections of a patient inside the repeat
 * frame fall on the first of them, also when that one lies before the period, or at a line of another part; then none
 * counts here. So the lines are those of the whole table, and what is counted is split afterwards by its own line.
 */
export function countEvents(
  lines: readonly LineFacts[],
  numerator: EventNumerator,
  period: Period,
  rule: SurveillanceRule,
): EventCount {
  const [opens, closes] = [dayNumber(period.from), dayNumber(period.to)];
  const within = ({ on }: { readonly on: number }) => on >= opens && on < closes;
  const all: CountedEvent[] = [];
  const mayCount: CountedEvent[] = [];
  for (const line of lines) {
    // without days there is no rate to count for (T7)
    const { undated = [] } = line.row;
    const mute = line.events.length === 0 && undated.length === 0 && line.row.end.kind !== "removed";
    if (line.stay === undefined || mute) continue;
    for (const dated of line.events) {
      if (dated.outside) continue;
      const verdict = counts(dated, numerator);
      if (verdict === true) all.push({ line, on: dated.on });
      else if (verdict === undefined && within(dated)) mayCount.push({ line, on: dated.on });
    }
    const claimed = claimedEvent(line.row);
    const on = line.endedOn;
    if (claimed !== undefined && on !== undefined && within({ on }) && [claimed, "any"].includes(numerator.event))
      mayCount.push({ line, on });
    const first = Math.max(opens, line.placedOn ?? closes);
    // it came on some day of the line: in every period that the line lies in it may count
    if (first < closes && (on === undefined || on >= opens))
      for (const kind of undated) if (mayBe(kind, numerator)) mayCount.push({ line, on: first });
  }
  const merged = mergesRepeats(numerator.flag) ? onceInFrame(all, rule) : all;
  return { counted: merged.filter(within), mayCount };
}

function onceInFrame(events: readonly CountedEvent[], rule: SurveillanceRule): readonly CountedEvent[] {
  const byPatient = new Map<string, CountedEvent[]>();
  for (const event of events) {
    const own = byPatient.get(event.line.row.patient);
    if (own) own.push(event);
    else byPatient.set(event.line.row.patient, [event]);
  }
  return [...byPatient.values()].flatMap((own) => {
    if (own.length === 1) return own;
    const kept = new Set(
      daysKept(
        own.map(({ on }) => on),
        rule,
      ),
    );
    return own.filter(({ on }) => kept.delete(on));
  });
}
