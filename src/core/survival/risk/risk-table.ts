import { checkFollowUp, type FollowUp } from "./follow-up.ts";
import { ascendingOrder } from "./order.ts";

/**
 * How many were at risk and how many ended, at every time at which anyone ended.
 * This is all that the curves and tests below need, so it is also what services can pool without their lines:
 * whole numbers, added together at identical times.
 */
export interface RiskTable {
  readonly groups: number;
  readonly kinds: number;
  /** Distinct times with an end of any kind, ascending. */
  readonly time: Float64Array;
  /** Entry < time <= exit, at [place * groups + group]. */
  readonly atRisk: Float64Array;
  /** Ends, at [(place * groups + group) * kinds + kind - 1]. */
  readonly ends: Float64Array;
  /** True where rows enter late, which some tests do not allow. */
  readonly delayedEntry: boolean;
}

/**
 * Counts the risk sets in one sweep over the ordered times.
 *   n(u) = #(entry < u <= exit), d_k(u) = #(exit = u, end = k)
 * Holds: any follow-up that `FollowUp` allows, else RangeError. O(n) after an O(n) sort.
 * Source: Andersen PK, Borgan O, Gill RD, Keiding N 1993, Statistical Models Based on Counting Processes, IV.1.
 * Example: exits 2, 3, 3 with ends 1, 1, 0: times 2, 3; at risk 3, 2; ends 1, 1.
 */
export function riskTable(follow: FollowUp): RiskTable {
  const { rows, groups, kinds } = checkFollowUp(follow);
  const leaving = inOrder(follow.exit, follow.group, follow.end);
  const entering = follow.entry === undefined ? undefined : inOrder(follow.entry, follow.group);
  const present = new Float64Array(groups);
  if (entering === undefined) for (const g of leaving.group) present[g] = (present[g] as number) + 1;
  const places = countPlaces(leaving);
  const time = new Float64Array(places);
  const atRisk = new Float64Array(places * groups);
  const ends = new Float64Array(places * groups * kinds);
  let place = 0;
  let entered = 0;
  for (let k = 0; k < rows;) {
    const now = leaving.time[k] as number;
    if (entering !== undefined) {
      for (; entered < rows && (entering.time[entered] as number) < now; entered += 1) {
        const g = entering.group[entered] as number;
        present[g] = (present[g] as number) + 1;
      }
    }
    let last = k;
    let ended = false;
    for (; last < rows && leaving.time[last] === now; last += 1) {
      const kind = leaving.end[last] as number;
      if (kind === 0) continue;
      ended = true;
      const cell = (place * groups + (leaving.group[last] as number)) * kinds + kind - 1;
      ends[cell] = (ends[cell] as number) + 1;
    }
    if (ended) {
      time[place] = now;
      for (let g = 0; g < groups; g += 1) atRisk[place * groups + g] = present[g] as number;
      place += 1;
    }
    for (; k < last; k += 1) {
      const g = leaving.group[k] as number;
      present[g] = (present[g] as number) - 1;
    }
  }
  return { groups, kinds, time, atRisk, ends, delayedEntry: entering !== undefined };
}

interface Ordered {
  readonly time: Float64Array;
  readonly group: Uint16Array;
  readonly end: Uint16Array;
}

/** The columns laid out in ascending time, so that the sweep reads them in a row. */
function inOrder(time: ArrayLike<number>, group?: ArrayLike<number>, end?: ArrayLike<number>): Ordered {
  const order = ascendingOrder(time);
  const rows = order.length;
  const sorted = { time: new Float64Array(rows), group: new Uint16Array(rows), end: new Uint16Array(rows) };
  for (let k = 0; k < rows; k += 1) {
    const row = order[k] as number;
    sorted.time[k] = time[row] as number;
    if (group !== undefined) sorted.group[k] = group[row] as number;
    if (end !== undefined) sorted.end[k] = end[row] as number;
  }
  return sorted;
}

function countPlaces(leaving: Ordered): number {
  let places = 0;
  let last = -1;
  for (let k = 0; k < leaving.time.length; k += 1) {
    if (leaving.end[k] === 0 || leaving.time[k] === last) continue;
    places += 1;
    last = leaving.time[k] as number;
  }
  return places;
}

/**
 * Entry < t <= exit at one moment: the number that belongs under a curve. O(n) for each moment asked.
 * Source: as `riskTable`. Example: exits 2, 3, 3: three at risk at 2, two at 2.5, none at 4.
 */
export function numberAtRisk(follow: FollowUp, moment: number, group?: number): number {
  let count = 0;
  for (let i = 0; i < follow.exit.length; i += 1) {
    if (group !== undefined && (follow.group?.[i] ?? 0) !== group) continue;
    if ((follow.exit[i] as number) >= moment && (follow.entry?.[i] ?? -1) < moment) count += 1;
  }
  return count;
}

/** Ends of all kinds of one group at one place of the table. */
export function endsAt(table: RiskTable, place: number, group: number): number {
  let sum = 0;
  const start = (place * table.groups + group) * table.kinds;
  for (let kind = 0; kind < table.kinds; kind += 1) sum += table.ends[start + kind] as number;
  return sum;
}
