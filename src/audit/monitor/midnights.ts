import { dayNumber } from "../../core/calendar/index.ts";
import { MINUTES_PER_DAY } from "../../core/dwell/index.ts";
import type { Period } from "../figure/index.ts";
import type { LineFacts } from "../line/index.ts";

/**
 * The midnights of a period, its last one too, each on the clock of the placing, first sight or end written nearest to it: a summer month
 * begins at the summer's midnight, as it does when it is asked for alone.
 * Units: minutes of UTC. Holds: the first and the last midnight are the period's own; without a written time all are its
 * first clock's. Source: definition. Example: 1 June at +02:00 in a year that opened at +01:00: 22:00 of UTC.
 */
export function midnightsOf(lines: readonly LineFacts[], { from, to, fromOffset, toOffset }: Period): Float64Array {
  const [opens, count] = [dayNumber(from), dayNumber(to) - dayNumber(from)];
  // the first and the last moment of each day, those before and behind the period in a place of their own
  const [first, last] = [new Float64Array(count + 2).fill(Infinity), new Float64Array(count + 2).fill(-Infinity)];
  const [firstClock, lastClock] = [new Int16Array(count + 2), new Int16Array(count + 2)];
  for (const { row } of lines) {
    const end = row.end.kind === "removed" || row.end.kind === "handed on" ? row.end.at : row.end.lastKnown;
    for (const moment of [row.placed, row.knownFrom, end]) {
      if (moment?.precision !== "minute") continue;
      const on = moment.utc + moment.offset;
      const at = Math.max(0, Math.min(count + 1, Math.floor(on / MINUTES_PER_DAY) - opens + 1));
      if (on < (first[at] as number)) [first[at], firstClock[at]] = [on, moment.offset];
      if (on > (last[at] as number)) [last[at], lastClock[at]] = [on, moment.offset];
    }
  }
  // of each day the nearest moment behind its midnight
  for (let at = count; at >= 0; at -= 1)
    if (first[at] === Infinity) [first[at], firstClock[at]] = [first[at + 1] as number, firstClock[at + 1] as number];
  const midnights = new Float64Array(count + 1);
  let [seen, clock] = [-Infinity, fromOffset];
  for (let at = 0; at <= count; at += 1) {
    const midnight = (opens + at) * MINUTES_PER_DAY;
    if ((last[at] as number) > -Infinity) [seen, clock] = [last[at] as number, lastClock[at] as number];
    const next = first[at + 1] as number;
    midnights[at] = midnight - (next - midnight < midnight - seen ? (firstClock[at + 1] as number) : clock);
  }
  midnights[0] = opens * MINUTES_PER_DAY - fromOffset;
  midnights[count] = (opens + count) * MINUTES_PER_DAY - toOffset;
  return midnights;
}
