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

/**
 * The days of one stay in a window, as `lineDays` of core/dwell counts them; a stay there is none of has none.
 * The census of "line-days at census" is taken at noon, as everywhere in the count.
 */
export function dayCounter(
  { from, to, first, last, noonFirst, noonLast }: PackedStays,
  { opens, closes, period }: Window,
  clock: LineClock,
): (stay: number) => number {
  const [start, stop] = [opens * MINUTES_PER_DAY - period.fromOffset, closes * MINUTES_PER_DAY - period.toOffset];
  switch (clock) {
    case "exact line-days":
      // where there is no stay the comparison is false: NaN is above nothing
      return (stay) => {
        const [left, right] = [from[stay] as number, to[stay] as number];
        const minutes = (right < stop ? right : stop) - (left > start ? left : start);
        return minutes > 0 && left <= right ? minutes / MINUTES_PER_DAY : 0;
      };
    case "calendar line-days, both ends":
      return (stay) => (isThere(from, stay) ? dates(first[stay] as number, last[stay] as number, opens, closes) : 0);
    case "line-days at census":
      return (stay) =>
        isThere(from, stay) ? dates(noonFirst[stay] as number, noonLast[stay] as number, opens, closes) : 0;
    case "line-days by date difference":
      return (stay) =>
        isThere(from, stay)
          ? Math.max(0, Math.min(last[stay] as number, closes) - Math.max(first[stay] as number, opens))
          : 0;
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
