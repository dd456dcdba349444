import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { stayInMinutes, type Moment, type Stay } from "../../core/dwell/index.ts";
import type { FollowUp } from "../../core/survival/index.ts";
import { counts } from "../figure/index.ts";
import type { LineFacts } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";

/** Ends: 0 still in place or no longer seen, 1 the event, 2 another end. */
export interface FollowedLines {
  readonly follow: FollowUp & {
    readonly entry: Float64Array;
    readonly exit: Float64Array;
    readonly end: Uint8Array;
  };
  /** The lines in the order of the columns. */
  readonly lines: readonly LineFacts[];
  /** Of all lines given. */
  readonly given: number;
  readonly delayed: boolean;
}

const MINUTES_A_DAY = 1440;
const NOON_MINUTE = 720;
const SHORTEST = 1 / MINUTES_A_DAY;

/**
 * Days from the end of insertion to the first event of a measure, or to another end.
 *   event before the end: at its own time; within its window after removal: at the removal; none: removal or hand-over is
 *   another end, and a line in place or of unknown end is censored at its last known moment
 * A line that came with the patient enters at the time since insertion at which it was first known here.
 * Units: days, unrounded; at least one minute. Holds: an event measure, else RangeError; lines without a stay are left out.
 * Source: Therneau TM, Grambsch PM 2000, Modeling Survival Data, ch. 3 (entry; from memory); common practice, no source.
 * Example: in on the 3rd 09:00, blocked on the 5th 09:00, out on the 9th: 2 days, the event.
 */
export function timeToEvent(all: readonly LineFacts[], measure: Measure): FollowedLines {
  const { numerator } = measure;
  if (numerator.count !== "events") throw new RangeError(`The measure ${measure.id} counts no events.`);
  const rows: { line: LineFacts; entry: number; exit: number; end: number }[] = [];
  for (const line of all) {
    const { stay, row } = line;
    const span = stay && stayInMinutes(stay);
    if (!stay || !span || typeof span === "string" || !row.placed) continue;
    const minuteOf = clockOf(stay);
    const start = row.knownFrom ? minuteOf(row.placed) : span.from;
    const exit = (span.to - start) / MINUTES_A_DAY;
    const first = line.events
      .filter((event) => !event.outside && counts(event, numerator) === true)
      .map(({ event }) => Math.min(Math.max((minuteOf(event.at) - start) / MINUTES_A_DAY, SHORTEST), exit))
      .reduce((least, time) => Math.min(least, time), Infinity);
    const entry = row.knownFrom ? Math.max(0, (span.from - start) / MINUTES_A_DAY) : 0;
    const time = Math.max(Math.min(first, exit), SHORTEST);
    if (entry >= time) continue;
    const ended = row.end.kind === "removed" || row.end.kind === "handed on";
    rows.push({ line, entry, exit: time, end: first < Infinity ? 1 : ended ? 2 : 0 });
  }
  return {
    follow: {
      entry: Float64Array.from(rows, ({ entry }) => entry),
      exit: Float64Array.from(rows, ({ exit }) => exit),
      end: Uint8Array.from(rows, ({ end }) => end),
    },
    lines: rows.map(({ line }) => line),
    given: all.length,
    delayed: rows.some(({ entry }) => entry > 0),
  };
}

/** The minute of a moment on the clock a stay is measured by: UTC, or the wall clock when the stay has dates alone. */
export function clockOf({ inserted, end }: Stay): (at: Moment) => number {
  const ends = [inserted, end.kind === "removed" ? end.at : end.lastKnown];
  const timed = ends.find((at) => at.precision === "minute");
  const noon = (date: CivilDate) => dayNumber(date) * MINUTES_A_DAY + NOON_MINUTE;
  if (timed?.precision !== "minute") return (at) => (at.precision === "minute" ? at.utc + at.offset : noon(at.date));
  return (at) => (at.precision === "minute" ? at.utc : noon(at.date) - timed.offset);
}
