import { gridPoint, type Point, type WallGrid } from "./wall-grid.ts";

/**
 * Closed lines along which the velocity has one value. Every cell of the grid is crossed by straight pieces between
 * crossings of its edges, placed by the field itself; the pieces are joined edge by edge. No line can end, since both walls are at
 * zero and the spokes run round.
 */
export function isolines(
  grid: WallGrid,
  level: number,
  exact: (point: Point) => number,
): readonly (readonly Point[])[] {
  const { rings, spokes, velocity } = grid;
  const at = (ring: number, spoke: number) => velocity[ring * spokes + (spoke % spokes)] as number;
  // an edge along a ring has an even name, an edge along a spoke an odd one
  const alongRing = (ring: number, spoke: number) => 2 * (ring * spokes + (spoke % spokes));
  const alongSpoke = (ring: number, spoke: number) => 2 * (ring * spokes + (spoke % spokes)) + 1;
  const joined = new Map<number, number[]>();
  const join = (a: number, b: number) => {
    (joined.get(a) ?? joined.set(a, []).get(a))?.push(b);
    (joined.get(b) ?? joined.set(b, []).get(b))?.push(a);
  };
  for (let ring = 0; ring < rings - 1; ring += 1) {
    for (let spoke = 0; spoke < spokes; spoke += 1) {
      const inner = at(ring, spoke);
      const innerNext = at(ring, spoke + 1);
      const outer = at(ring + 1, spoke);
      const outerNext = at(ring + 1, spoke + 1);
      const corners =
        (inner > level ? 1 : 0) + (innerNext > level ? 2 : 0) + (outerNext > level ? 4 : 0) + (outer > level ? 8 : 0);
      if (corners === 0 || corners === 15) continue;
      const edges: number[] = [];
      if (inner > level !== innerNext > level) edges.push(alongRing(ring, spoke));
      if (innerNext > level !== outerNext > level) edges.push(alongSpoke(ring, spoke + 1));
      if (outer > level !== outerNext > level) edges.push(alongRing(ring + 1, spoke));
      if (inner > level !== outer > level) edges.push(alongSpoke(ring, spoke));
      const [a, b, c, d] = edges as [number, number, number, number];
      if (edges.length === 2) join(a, b);
      else {
        // a saddle: the middle of the cell decides which corners hold together
        const high = (inner + innerNext + outer + outerNext) / 4 > level;
        if (high === inner > level) {
          join(a, b);
          join(c, d);
        } else {
          join(a, d);
          join(b, c);
        }
      }
    }
  }
  const place = (edge: number): Point => {
    const cell = edge >> 1;
    const ring = Math.floor(cell / spokes);
    const spoke = cell % spokes;
    const from = at(ring, spoke);
    const along = edge % 2 === 0;
    const to = along ? at(ring, spoke + 1) : at(ring + 1, spoke);
    const on = (part: number) => (along ? gridPoint(grid, ring, spoke + part) : gridPoint(grid, ring + part, spoke));
    const guess = (level - from) / (to - from);
    // one step of the secant from the field itself: a straight piece of a bent field is short at every crossing
    const refined = guess + (level - exact(on(guess))) / (to - from);
    return on(Math.min(1, Math.max(0, refined)));
  };
  return loops(joined).map((edges) => edges.map(place));
}

function loops(joined: Map<number, number[]>): readonly (readonly number[])[] {
  const found: number[][] = [];
  const seen = new Set<number>();
  for (const start of joined.keys()) {
    if (seen.has(start)) continue;
    const loop: number[] = [];
    let before = -1;
    let now = start;
    while (!seen.has(now)) {
      seen.add(now);
      loop.push(now);
      const next = (joined.get(now) ?? []).find((edge) => edge !== before && !seen.has(edge));
      if (next === undefined) break;
      before = now;
      now = next;
    }
    found.push(loop);
  }
  return found;
}
