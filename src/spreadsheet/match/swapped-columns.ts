import { dayNumber } from "../../core/calendar/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import type { Sheet } from "../file/index.ts";
import { readColumns, type ReadColumn } from "./carried-number.ts";
import { DATE_ORDERS, readDate, type DateOrder, type DateStyle } from "./date-text.ts";
import type { Matching } from "./matching.ts";

/** Two columns of which each seems to be the other. */
export interface SwappedColumns {
  readonly placed: string;
  readonly removed: string;
  /** Rows removed before they were placed, of those with both dates. */
  readonly backwards: number;
  readonly rows: number;
}

/** Fewer rows with both dates say nothing of a column. */
const FEWEST = 5;
const MOSTLY_READ = 0.9;

/**
 * Whether the columns of placing and of removal look swapped: with a larger share of the first rows than `swappedShare`
 * removed before they were placed, in every order of day and month that the dates allow. One wrong row says nothing.
 */
export function swappedColumns(
  matching: Matching,
  { headers, sample }: Pick<Sheet, "headers" | "sample">,
  { swappedShare }: Pick<SheetLimits, "swappedShare">,
): SwappedColumns | undefined {
  const columns = readColumns(headers, matching);
  const placed = columns.find(({ field }) => field === "placedOn");
  const removed = columns.find(({ field }) => field === "removedOn");
  if (!placed || !removed) return undefined;
  const dayOf = ({ at, match }: ReadColumn, cells: readonly string[], order: DateOrder) => {
    const style: DateStyle = { twoDigitUpTo: 99, serialSystem: 1900, order, ...match };
    const reading = readDate(cells[at] ?? "", style);
    return reading.kind === "date" ? dayNumber(reading.date) : undefined;
  };
  const tallies = DATE_ORDERS.map((order) => {
    let [backwards, rows] = [0, 0];
    for (const { cells } of sample) {
      const [from, to] = [dayOf(placed, cells, order), dayOf(removed, cells, order)];
      if (from === undefined || to === undefined) continue;
      rows += 1;
      if (to < from) backwards += 1;
    }
    return { backwards, rows };
  });
  // an order that leaves many dates unread is not the one they are written in
  const most = Math.max(FEWEST, ...tallies.map(({ rows }) => rows));
  const [first, ...others] = tallies.filter(({ rows }) => rows >= MOSTLY_READ * most);
  if (first === undefined) return undefined;
  const least = others.reduce((a, b) => (b.backwards / b.rows < a.backwards / a.rows ? b : a), first);
  return least.backwards > swappedShare * least.rows
    ? { placed: placed.match.header, removed: removed.match.header, ...least }
    : undefined;
}

/** The matching with the two columns changed places, each with its own way to write dates. */
export const withColumnsSwapped = (matching: Matching, { placed, removed }: SwappedColumns): Matching => ({
  ...matching,
  columns: matching.columns.map((column) =>
    column.header === placed
      ? { ...column, field: "removedOn" }
      : column.header === removed
        ? { ...column, field: "placedOn" }
        : column,
  ),
});
