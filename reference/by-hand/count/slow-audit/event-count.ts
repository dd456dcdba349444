import { dayNumber } from "../../../../src/core/calendar/index.ts";
import type { SurveillanceRule } from "../../../../src/core/dwell/index.ts";
import {
  claimedEvent,
  type DatedEvent,
  type LineFacts,
  type Measure,
  type Period,
} from "../../../../src/audit/index.ts";

type EventNumerator = Extract<Measure["numerator"], { readonly count: "events" }>;
type Answer = "yes" | "no" | "nobody said";

export interface CountedEvent {
  readonly line: LineFacts;
  readonly on: number;
}

export interface EventCount {
  readonly counted: readonly CountedEvent[];
  readonly mayCount: readonly CountedEvent[];
}

/** What an infection says to each question that a measure may ask of it, as it was written in the row. */
const SAID: Readonly<Record<EventNumerator["flag"], (infection: DatedEvent) => Answer>> = {
  any: ({ event }) => {
    const denied = "clinical" in event && event.clinical === false;
    const confirmed = "surveillance" in event && event.surveillance === true;
    return denied && !confirmed ? "no" : "yes";
  },
  clinical: ({ event }) => asWritten("clinical" in event ? event.clinical : undefined),
  "paired culture": ({ event }) => asWritten("pairedCulture" in event ? event.pairedCulture : undefined),
  surveillance: ({ event, eligible }) =>
    eligible ? asWritten("surveillance" in event ? event.surveillance : undefined) : "no",
  "surveillance without mucosal barrier": (infection) => {
    const { event } = infection;
    const injured = asWritten("mucosal" in event ? event.mucosal : undefined);
    const met = SAID.surveillance(infection);
    if (met === "no" || injured === "yes") return "no";
    return met === "yes" && injured === "no" ? "yes" : "nobody said";
  },
};
const asWritten = (flag: unknown): Answer => (flag === true ? "yes" : flag === false ? "no" : "nobody said");

/**
 * The events of a measure by one list of all that was written, one question after the other. Of a patient's surveillance
 * infections one counts where none that counts stands in the days of its frame before it.
 */
export function countEvents(
  lines: readonly LineFacts[],
  numerator: EventNumerator,
  period: Period,
  rule: SurveillanceRule,
): EventCount {
  const inPeriod = (on: number): boolean => dayNumber(period.from) <= on && on < dayNumber(period.to);
  // a line known to the month has no days to count events over
  const counting = lines.filter(({ stay }) => stay !== undefined);
  const written = counting.flatMap((line) => line.events.map((dated) => ({ line, on: dated.on, dated })));
  const asked = written
    .filter(({ dated }) => !dated.outside)
    .filter(({ dated }) => numerator.event === "any" || dated.event.kind === numerator.event)
    .map(({ line, on, dated }) => ({ line, on, answer: answerOf(dated, numerator) }));
  const yes = asked.filter(({ answer }) => answer === "yes").map(({ line, on }) => ({ line, on }));
  const byPerson = new Map<string, CountedEvent[]>();
  for (const one of yes) byPerson.set(one.line.row.patient, [...(byPerson.get(one.line.row.patient) ?? []), one]);
  const personOf = (one: CountedEvent) => byPerson.get(one.line.row.patient) ?? [];
  const counted = numerator.flag.startsWith("surveillance")
    ? yes.filter((one) => standsAlone(one, personOf(one), rule))
    : yes;
  const claims = counting
    .filter(({ row, endedOn }) => {
      const named = claimedEvent(row);
      return named !== undefined && endedOn !== undefined && (numerator.event === "any" || numerator.event === named);
    })
    .map((line) => ({ line, on: line.endedOn as number }));
  // of no known day: any day of the line, so each period that the line lies in; only an infection is asked for a flag
  const undated = counting.flatMap((line) => {
    const [first, last] = [line.placedOn ?? Infinity, line.endedOn ?? Infinity];
    if (first >= dayNumber(period.to) || last < dayNumber(period.from)) return [];
    return (line.row.undated ?? [])
      .filter((kind) => numerator.event === "any" || numerator.event === kind)
      .filter((kind) => numerator.flag === "any" || kind === "infection")
      .map(() => ({ line, on: Math.max(first, dayNumber(period.from)) }));
  });
  const unsaid = asked.filter(({ answer }) => answer === "nobody said").map(({ line, on }) => ({ line, on }));
  return {
    counted: counted.filter(({ on }) => inPeriod(on)),
    mayCount: [...unsaid, ...claims, ...undated].filter(({ on }) => inPeriod(on)),
  };
}

/** Only infections carry flags: any other event answers to "any" alone. */
const answerOf = (dated: DatedEvent, { flag }: EventNumerator): Answer =>
  dated.event.kind === "infection" ? SAID[flag](dated) : flag === "any" ? "yes" : "no";

/** By recursion: an event of a person stands alone unless another of theirs, in the frame before it, does. */
function standsAlone(one: CountedEvent, own: readonly CountedEvent[], rule: SurveillanceRule): boolean {
  const place = own.indexOf(one);
  return !own.some(
    (other, at) =>
      one.on - other.on < rule.repeatFrameDays &&
      (other.on < one.on || (other.on === one.on && at < place)) &&
      standsAlone(other, own, rule),
  );
}
