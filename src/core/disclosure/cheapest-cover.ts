import { movesOf, type Cell } from "./signed-table.ts";

/**
 * The cells to withhold besides one small cell, so that it might as well be as large as `need` more.
 *   the shortest way round through the other cells, each costing its count unless withheld already, and each with room
 *   for `need`
 * There is always one, for the cell's own totals may rise with it; were there none, everything is withheld. Source: Dijkstra 1959; cells as arcs after Cox 1980, J Am Stat Assoc 75:377 (from
 * memory).
 */
export function cheapestCover(
  cell: Cell,
  cells: readonly Cell[],
  withheld: ReadonlySet<Cell>,
  rowNodes: number,
  need: number,
): readonly Cell[] {
  const moves = movesOf(
    cells.filter((other) => other !== cell && (other.value > 0 || other.unprinted)),
    rowNodes,
  ).filter((move) => move.room >= need);
  const cost = (other: Cell) => (withheld.has(other) || other.unprinted ? 0 : other.value);
  const [row, column] = [cell.row, rowNodes + cell.column];
  const [from, to] = cell.sign === 1 ? [column, row] : [row, column];
  const reached = new Map<number, { readonly cost: number; readonly way: readonly Cell[] }>([
    [from, { cost: 0, way: [] }],
  ]);
  const done = new Set<number>();
  for (;;) {
    let node: number | undefined;
    for (const [candidate, { cost }] of reached)
      if (!done.has(candidate) && (node === undefined || cost < (reached.get(node)?.cost ?? Infinity)))
        node = candidate;
    if (node === undefined) return cells.filter((other) => other.value > 0 && !other.unprinted);
    const here = reached.get(node) as { readonly cost: number; readonly way: readonly Cell[] };
    if (node === to) return here.way.filter((other) => !other.unprinted);
    done.add(node);
    for (const move of moves) {
      if (move.from !== node) continue;
      const total = here.cost + cost(move.cell);
      if (total < (reached.get(move.to)?.cost ?? Infinity))
        reached.set(move.to, { cost: total, way: [...here.way, move.cell] });
    }
  }
}
