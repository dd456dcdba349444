import { dayNumber } from "../../core/calendar/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import type { PackedFacts } from "../packed/index.ts";
import { checkColumns } from "../quality/index.ts";
import { dayCounter } from "./count-days.ts";
import { countedEvents } from "./count-packed-events.ts";
import type { Period } from "./figure.ts";
import type { AuditRules } from "./scene.ts";

/** A measure's lines one by one, where a rate is looked behind: each by its place in the facts. */
export interface WatchedLines {
  readonly facts: PackedFacts;
  readonly lines: Int32Array;
  /** Days of a line in the period on the measure's clock. */
  readonly daysOf: (line: number) => number;
  /** The line of each event that counts, so often as it has events. */
  readonly eventLines: readonly number[];
}

/**
 * Every line that no rule stopped behind a rate of a period, with their days and the events that count. A part of them is
 * cut from these: repeats are merged over the whole table.
 * Units: days of the measure's clock. Holds: an event measure with a clock, else RangeError.
 * Source: as `audit`. Example: test/specification/guards.test.ts.
 */
export function watchedLines(
  table: AuditTable,
  { id, numerator, clock }: Measure,
  period: Period,
  { limits, surveillance }: AuditRules,
): WatchedLines {
  if (numerator.count !== "events" || clock === "none")
    throw new RangeError(`The measure ${id} counts no events over days.`);
  const checked = checkColumns(table, limits, surveillance);
  const { facts, stopped } = checked;
  const lines = Int32Array.from(Array.from(stopped.keys()).filter((line) => stopped[line] === 0));
  const window = { period, opens: dayNumber(period.from), closes: dayNumber(period.to) };
  return {
    facts,
    lines,
    daysOf: dayCounter(facts.stays, window, clock),
    eventLines: countedEvents(checked, lines, numerator, window, { surveillance }).lines,
  };
}
