import { suppressSmallCells } from "../../core/disclosure/index.ts";
import type { PooledCount, PoolStratum } from "./pool-file.ts";

type Plain = readonly (readonly number[])[];
type Shown = readonly (readonly PooledCount[])[];

/** One stratum as it was counted, before anything is withheld. */
export interface CountedStratum extends Pick<PoolStratum, "stratum" | "lineDays"> {
  readonly events: readonly number[];
  readonly lines: readonly number[];
  readonly atRisk: Plain;
  readonly ends: Plain;
}

/**
 * The strata of a pool file with small counts withheld, and so many others that none follows from the file or from the
 * totals that an audit of the same table prints.
 *   events, lines: one table of strata x groups whose sums are printed
 *   ends: the sum of a group is printed as well, and no group has more ends than lines
 *   who is at risk: withheld where its fall, or what is left at the end, would tell a withheld end
 * Units: persons or events. Holds: whole counts; smallestShown of 1 withholds nothing, for sums that stay inside one
 * service. Source: `suppressSmallCells`. Example: events of 2, 9 and 20 leave as withheld, withheld and 20.
 */
export function withholdStrata(strata: readonly CountedStratum[], smallestShown: number): readonly PoolStratum[] {
  if (smallestShown <= 1) return strata;
  const events = underSums(
    strata.map((one) => one.events),
    smallestShown,
  );
  const lines = underSums(
    strata.map((one) => one.lines),
    smallestShown,
  );
  return strata.map((one, at): PoolStratum => {
    const ends = withheldEnds(one, events[at] ?? [], smallestShown);
    return {
      ...one,
      events: events[at] ?? [],
      lines: lines[at] ?? [],
      atRisk: withoutTellingFalls(one.atRisk, ends, smallestShown),
      ends,
    };
  });
}

/** Cells withheld, and the margins that would have to be withheld with them. */
function suppressed(table: Plain, smallestShown: number, [rowTotals, columnTotals]: readonly [boolean, boolean]) {
  if (table.length === 0 || table[0]?.length === 0)
    return { cells: table as Shown, rows: [], columns: [], whole: false };
  const { cells, withheld } = suppressSmallCells(table, { smallestShown, rowTotals, columnTotals });
  const covers = withheld.filter(({ small }) => !small);
  return {
    cells: cells.map((row) => row.map((cell) => (cell === "withheld" ? null : cell))) as Shown,
    rows: covers.flatMap(({ row, column }) => (column === "total" && row !== "total" ? [row] : [])),
    columns: covers.flatMap(({ row, column }) => (row === "total" && column !== "total" ? [column] : [])),
    whole: covers.some(({ row, column }) => row === "total" && column === "total"),
  };
}

/** An audit prints the sums, so a sum is no cover: in its place the whole row or column is withheld, noughts with it. */
function underSums(table: Plain, smallestShown: number): Shown {
  const { cells, rows, columns, whole } = suppressed(table, smallestShown, [
    (table[0] ?? []).length > 1,
    table.length > 1,
  ]);
  return cells.map((row, at) =>
    row.map((cell, group) => (whole || rows.includes(at) || columns.includes(group) ? null : cell)),
  );
}

function withheldEnds(
  { ends: plain, atRisk, lines }: CountedStratum,
  events: readonly PooledCount[],
  smallestShown: number,
): Shown {
  const { cells, columns } = suppressed(plain, smallestShown, [false, true]);
  const ends = cells.map((row) => [...row]);
  for (const [group, placed] of lines.entries()) {
    const own = ends.map((row) => row[group] as PooledCount);
    const printed = own.filter((end): end is number => end !== null && end > 0);
    // the ends would add up to the events that are withheld
    if (events[group] === null && printed.length > 0 && !own.includes(null))
      own[own.indexOf(Math.min(...printed))] = null;
    // what ends or lasts beside the ends that are printed is at most the lines without them
    let left = placed;
    let isTight = columns.includes(group);
    let ended = 0;
    for (const [k, end] of own.entries()) {
      // with no end withheld from here on, an audit's sum tells how many ended before
      const most = own.slice(k).includes(null) ? left : placed - ended;
      isTight ||= isSmall(atRisk[k]?.[group], smallestShown) && most < smallestShown;
      // a withheld end is known to be no nought
      left -= end ?? 1;
      ended += plain[k]?.[group] ?? 0;
    }
    isTight ||= own.includes(null) && left + 1 < smallestShown;
    for (const [k, row] of ends.entries()) row[group] = isTight ? null : (own[k] as PooledCount);
  }
  return ends;
}

const isSmall = (count: number | undefined, smallestShown: number): boolean =>
  count !== undefined && count > 0 && count < smallestShown;

/**
 * Who ends in an interval is no longer at risk in the next, so a fall of one beside a withheld end tells the end. From a
 * withheld end on, who is at risk is withheld until the fall leaves room for the smallest count that is shown. Where those
 * at risk leave no such room for the few of a later interval, or by the end, they are withheld themselves.
 */
function withoutTellingFalls(atRisk: Plain, ends: Shown, smallestShown: number): Shown {
  const shown = suppressed(atRisk, smallestShown, [false, false]).cells.map((row) => [...row]);
  for (const group of shown[0]?.keys() ?? []) {
    // noughts are withheld as well where every end of a group is
    const least = Number(ends.some((row) => row[group] !== null));
    for (let from = 0; from < shown.length; from += 1) {
      const before = shown[from]?.[group];
      if (before === null || before === undefined) continue;
      let [told, hidden, next, fewLater] = [0, 0, from, false];
      const isTight = (after: number) => hidden > 0 && before - after - told - least * (hidden - 1) < smallestShown;
      do {
        const end = ends[next]?.[group];
        told += end ?? 0;
        hidden += Number(end === null);
        next += 1;
        if (shown[next]?.[group] !== null && next < shown.length && isTight(shown[next]?.[group] ?? 0))
          (shown[next] as PooledCount[])[group] = null;
        fewLater ||= isSmall(atRisk[next]?.[group], smallestShown) && before - told - least * hidden < smallestShown;
      } while (next < shown.length && shown[next]?.[group] === null);
      if (fewLater || (next >= shown.length && isTight(0))) {
        (shown[from] as PooledCount[])[group] = null;
        // who was at risk before it now reaches further
        from = -1;
      }
    }
  }
  return shown;
}
