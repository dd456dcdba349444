import { cheapestCover } from "./cheapest-cover.ts";
import { extended, provable, type Cell } from "./signed-table.ts";

export interface SuppressionRule {
  /** Smallest count of persons that may leave the service; zero may always. */
  readonly smallestShown: number;
  readonly rowTotals: boolean;
  readonly columnTotals: boolean;
}

export type ShownCell = number | "withheld";

/** What a reader of the printed table can still prove of a withheld cell. Row or column "total" is a margin. */
export interface Provable {
  readonly row: number | "total";
  readonly column: number | "total";
  readonly least: number;
  readonly most: number;
  /** True when the cell is small itself; false when it is withheld to cover another. */
  readonly small: boolean;
}

export interface SuppressedTable {
  readonly cells: readonly (readonly ShownCell[])[];
  /** Absent when the rule does not print them. */
  readonly rowTotals?: readonly ShownCell[];
  readonly columnTotals?: readonly ShownCell[];
  readonly total?: ShownCell;
  readonly withheld: readonly Provable[];
}

/**
 * A table of persons with its small cells withheld, and so many others that no small cell can be worked out.
 *   small: 1 to smallestShown - 1; every withheld small cell can, for all a reader can prove from the printed cells and
 *   totals, be smallestShown or more
 * The reader is taken to know that withheld cells are not zero. Totals are cells like any other. A list is one row.
 * Units: persons. Holds: whole counts not below zero, rows of one length, smallestShown at least 2, else RangeError; one
 * table at a time, so two tables that share cells must be put into one. A pattern always exists, at worst the totals.
 * Source: Cox 1980, J Am Stat Assoc 75:377 (from memory); the size of a small cell is common practice, no source.
 * Example: 2, 8, 9 with total 19 and smallest shown 5: the 2 and the 8 are withheld.
 */
export function suppressSmallCells(table: readonly (readonly number[])[], rule: SuppressionRule): SuppressedTable {
  check(table, rule);
  const grid = extended(table, rule);
  const rowNodes = grid.length;
  const cells = grid.flat();
  const isSmall = (cell: Cell) => !cell.unprinted && cell.value > 0 && cell.value < rule.smallestShown;
  const small = cells.filter(isSmall).sort((a, b) => a.value - b.value);
  const withheld = new Set<Cell>(small);
  for (const cell of small) {
    const need = rule.smallestShown - cell.value;
    if (boundsOf(cell, cells, withheld, rowNodes).most >= rule.smallestShown) continue;
    for (const other of cheapestCover(cell, cells, withheld, rowNodes, need)) withheld.add(other);
  }
  return printed(grid, withheld, rule, (cell) => ({
    ...boundsOf(cell, cells, withheld, rowNodes),
    small: isSmall(cell),
  }));
}

function boundsOf(cell: Cell, cells: readonly Cell[], withheld: ReadonlySet<Cell>, rowNodes: number) {
  return provable(
    cell,
    cells.filter((other) => withheld.has(other) || other.unprinted),
    rowNodes,
  );
}

function printed(
  grid: readonly (readonly Cell[])[],
  withheld: ReadonlySet<Cell>,
  rule: SuppressionRule,
  prove: (cell: Cell) => Pick<Provable, "least" | "most" | "small">,
): SuppressedTable {
  const show = (cell: Cell): ShownCell => (withheld.has(cell) ? "withheld" : cell.value);
  const interior = grid.slice(0, -1);
  const totals = grid.at(-1) as readonly Cell[];
  const place = (at: number, last: number) => (at === last ? "total" : at);
  return {
    cells: interior.map((row) => row.slice(0, -1).map(show)),
    ...(rule.rowTotals && { rowTotals: interior.map((row) => show(row.at(-1) as Cell)) }),
    ...(rule.columnTotals && { columnTotals: totals.slice(0, -1).map(show) }),
    ...((rule.rowTotals || rule.columnTotals) && { total: show(totals.at(-1) as Cell) }),
    withheld: [...withheld].map((cell) => ({
      row: place(cell.row, grid.length - 1),
      column: place(cell.column, totals.length - 1),
      ...prove(cell),
    })),
  };
}

function check(table: readonly (readonly number[])[], rule: SuppressionRule): void {
  if (!(Number.isInteger(rule.smallestShown) && rule.smallestShown >= 2))
    throw new RangeError(`The smallest count shown is ${rule.smallestShown}; it must be a whole number from 2 up.`);
  const width = table[0]?.length ?? 0;
  if (width === 0 || table.some((row) => row.length !== width))
    throw new RangeError("The table is empty or its rows differ in length; give rows of one length.");
  const bad = table.flat().find((value) => !(Number.isInteger(value) && value >= 0));
  if (bad !== undefined) throw new RangeError(`A cell holds ${bad}; counts must be whole and not below zero.`);
}
