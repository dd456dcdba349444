/**
 * A table with its margins, as a network in which a reader can move counts about without changing what is printed.
 * Interior cells and the grand total count +, the other totals -, so that every row and every column of the signed table
 * adds to zero: rows and columns are nodes, cells are arcs, and every other table that fits what is printed is this one
 * plus a circulation over the cells that are not printed.
 */
export interface Cell {
  readonly row: number;
  readonly column: number;
  readonly value: number;
  readonly sign: 1 | -1;
  /** A total nobody prints: free to move, and not anyone's secret. */
  readonly unprinted: boolean;
}

/** One way in which a cell's count can move, from node to node, and how far. */
export interface Move {
  readonly cell: Cell;
  readonly from: number;
  readonly to: number;
  readonly room: number;
}

/** Interior plus margins, row by row; the last row and column are the totals. */
export function extended(
  table: readonly (readonly number[])[],
  printed: { readonly rowTotals: boolean; readonly columnTotals: boolean },
): Cell[][] {
  const rows = table.length;
  const columns = table[0]?.length ?? 0;
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const full = table.map((row) => [...row, sum(row)]);
  full.push(Array.from({ length: columns + 1 }, (_, column) => sum(full.map((row) => row[column] as number))));
  return full.map((row, i) =>
    row.map((value, j): Cell => {
      const inTotals = [i === rows, j === columns] as const;
      const unprinted =
        (inTotals[0] && inTotals[1] && !printed.rowTotals && !printed.columnTotals) ||
        (inTotals[0] && !inTotals[1] && !printed.columnTotals) ||
        (inTotals[1] && !inTotals[0] && !printed.rowTotals);
      return { row: i, column: j, value, sign: inTotals[0] === inTotals[1] ? 1 : -1, unprinted };
    }),
  );
}

/** How far down a reader must reckon with: a withheld cell is known not to be zero, for zeros are printed. */
const leastOf = (cell: Cell): number => (cell.unprinted ? 0 : 1);

const UNLIMITED = Number.MAX_SAFE_INTEGER / 4;

/** Up and down moves of the given cells; column nodes come after the `rowNodes` row nodes. */
export function movesOf(cells: readonly Cell[], rowNodes: number): Move[] {
  return cells.flatMap((cell) => {
    const [row, column] = [cell.row, rowNodes + cell.column];
    const down = Math.max(0, cell.value - leastOf(cell));
    const [along, back] = cell.sign === 1 ? [UNLIMITED, down] : [down, UNLIMITED];
    return [
      { cell, from: row, to: column, room: along },
      { cell, from: column, to: row, room: back },
    ];
  });
}

/** Least and most a reader can prove of one cell, when all `withheld` cells and unprinted totals may move together. */
export function provable(
  cell: Cell,
  free: readonly Cell[],
  rowNodes: number,
): { readonly least: number; readonly most: number } {
  const others = movesOf(
    free.filter((other) => other !== cell),
    rowNodes,
  );
  const [row, column] = [cell.row, rowNodes + cell.column];
  const [upFrom, upTo] = cell.sign === 1 ? [column, row] : [row, column];
  const up = largestFlow(others, upFrom, upTo, UNLIMITED);
  const down = largestFlow(others, upTo, upFrom, cell.value - leastOf(cell));
  return { least: cell.value - down, most: up >= UNLIMITED ? Infinity : cell.value + up };
}

/**
 * Largest flow between two nodes, by shortest augmenting paths, up to a bound.
 * Source: Edmonds and Karp 1972, J ACM 19:248 (from memory).
 */
function largestFlow(moves: readonly Move[], from: number, to: number, bound: number): number {
  const room = new Map<number, Map<number, number>>();
  const add = (a: number, b: number, more: number) => {
    const out = room.get(a) ?? new Map<number, number>();
    out.set(b, (out.get(b) ?? 0) + more);
    room.set(a, out);
  };
  for (const move of moves) add(move.from, move.to, move.room);
  let flow = 0;
  while (flow < bound) {
    const reachedFrom = new Map<number, number>([[from, from]]);
    const queue = [from];
    for (const node of queue)
      for (const [next, left] of room.get(node) ?? [])
        if (left > 0 && !reachedFrom.has(next)) {
          reachedFrom.set(next, node);
          queue.push(next);
        }
    if (!reachedFrom.has(to)) return flow;
    let push = bound - flow;
    for (let node = to; node !== from; node = reachedFrom.get(node) as number)
      push = Math.min(push, room.get(reachedFrom.get(node) as number)?.get(node) ?? 0);
    for (let node = to; node !== from; node = reachedFrom.get(node) as number) {
      const before = reachedFrom.get(node) as number;
      add(before, node, -push);
      add(node, before, push);
    }
    flow += push;
  }
  return flow;
}
