import type { LineClock } from "../../core/dwell/index.ts";
import { MINUTES_PER_DAY } from "../../core/dwell/index.ts";
import { isUnknownEnd, type PackedStays } from "../packed/index.ts";
import type { Scene } from "./scene.ts";
import type { Parts } from "./split.ts";

/** Days of every part on one clock, with what an unknown end could add. */
export interface CountedDays {
  readonly days: Float64Array;
  readonly used: Float64Array;
  readonly mostDays: Float64Array;
  /** Lines that may have had a day in the period. */
  readonly mayUse: Float64Array;
}

type Window = Pick<Scene, "opens" | "closes" | "period">;

const WHOLE = (): number => Infinity;

/**
 * The days of one stay in a window, as `lineDays` of core/dwell counts them; a stay there is none of has none. With
 * `mostOf` only as many of its last days as that says, on the same clock: what is counted is never more than the stay.
 * The census of "line-days at census" is taken at noon, as everywhere in the count.
 */
export function dayCounter(
  { from, to, datesAlone, first, last, noonFirst, noonLast }: PackedStays,
  { opens, closes, period }: Window,
  clock: LineClock,
  mostOf: (stay: number) => number = WHOLE,
): (stay: number) => number {
  const [wallStart, wallStop] = [opens * MINUTES_PER_DAY, closes * MINUTES_PER_DAY];
  const [start, stop] = [wallStart - period.fromOffset, wallStop - period.toOffset];
  /** Dates counted as one each, the last of them `mostOf` at the most. */
  const counted = (ins: Int32Array, outs: Int32Array) => (stay: number) => {
    const out = outs[stay] as number;
    return isThere(from, stay) ? dates(Math.max(ins[stay] as number, out - mostOf(stay) + 1), out, opens, closes) : 0;
  };
  switch (clock) {
    case "exact line-days":
      // where there is no stay the comparison is false: NaN is above nothing
      return (stay) => {
        const right = to[stay] as number;
        const left = Math.max(from[stay] as number, right - mostOf(stay) * MINUTES_PER_DAY);
        const onWall = datesAlone[stay] === 1;
        const [begin, end] = [onWall ? wallStart : start, onWall ? wallStop : stop];
        const minutes = (right < end ? right : end) - (left > begin ? left : begin);
        return minutes > 0 && left <= right ? minutes / MINUTES_PER_DAY : 0;
      };
    case "calendar line-days, both ends":
      return counted(first, last);
    case "line-days at census":
      return counted(noonFirst, noonLast);
    case "line-days by date difference":
      return (stay) => {
        const out = last[stay] as number;
        const begin = Math.max(first[stay] as number, out - mostOf(stay));
        return isThere(from, stay) ? Math.max(0, Math.min(out, closes) - Math.max(begin, opens)) : 0;
      };
    default:
      return clock satisfies never;
  }
}

const isThere = (from: Float64Array, stay: number): boolean => !Number.isNaN(from[stay]);

const dates = (first: number, last: number, opens: number, closes: number): number =>
  Math.max(0, Math.min(last, closes - 1) - Math.max(first, opens) + 1);

/** Days of each part, added in the order of the lines, as the parts added alone would be. */
export function countDays(scene: Scene, parts: Parts, clock: LineClock): CountedDays {
  const { facts, near } = scene;
  const { slots, splits } = parts;
  const column = () => new Float64Array(slots);
  const [days, used, mostDays, mayUse] = [column(), column(), column(), column()];
  const [seenDays, longDays, seenUsed, longUsed] = [column(), column(), column(), column()];
  const [own, stretched] = [dayCounter(facts.stays, scene, clock), dayCounter(facts.longest, scene, clock)];
  const put = (into: Float64Array, users: Float64Array, line: number, count: number): void => {
    if (!(count > 0)) return;
    into[0] = (into[0] as number) + count;
    users[0] = (users[0] as number) + 1;
    for (const { codes, base } of splits) {
      const slot = base + (codes[line] as number);
      into[slot] = (into[slot] as number) + count;
      users[slot] = (users[slot] as number) + 1;
    }
  };
  let next = 0;
  for (const line of near) {
    const count = own(line);
    put(days, used, line, count);
    // only a line of unknown end can have been in for longer
    if (!isUnknownEnd(facts.lines, line)) continue;
    while ((facts.unknown[next] as number) < line) next += 1;
    put(seenDays, seenUsed, line, count);
    put(longDays, longUsed, line, stretched(next));
  }
  for (let slot = 0; slot < slots; slot += 1) {
    mostDays[slot] = (days[slot] as number) + Math.max(0, (longDays[slot] as number) - (seenDays[slot] as number));
    mayUse[slot] = (used[slot] as number) + (longUsed[slot] as number) - (seenUsed[slot] as number);
  }
  return { days, used, mostDays, mayUse };
}
