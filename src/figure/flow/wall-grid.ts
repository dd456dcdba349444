import { velocityAt, type VeinField } from "../../core/flow/index.ts";

/**
 * The blood between catheter and vein wall on a grid that fits both: rings of circles from one wall to the other, so
 * that the first and the last ring are exactly the walls, where nothing flows.
 */
export interface WallGrid {
  readonly rings: number;
  readonly spokes: number;
  /** Multiples of the open vein's mean velocity, ring by ring; the first and last ring are zero. */
  readonly velocity: Float64Array;
  readonly ratio: number;
  readonly apart: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Where a ring and a spoke meet, fractions allowed; lengths in vein radii, y up. */
export function gridPoint(grid: WallGrid, ring: number, spoke: number): Point {
  // rings stand denser at the walls, where the velocity bends most
  const out = (1 - Math.cos((Math.PI * ring) / (grid.rings - 1))) / 2;
  const angle = (2 * Math.PI * spoke) / grid.spokes;
  const radius = grid.ratio + (1 - grid.ratio) * out;
  return { x: grid.apart * (1 - out) + radius * Math.cos(angle), y: radius * Math.sin(angle) };
}

export function wallGrid(field: VeinField, rings: number, spokes: number): WallGrid {
  const { ratio, apart } = field.annulus;
  const velocity = new Float64Array(rings * spokes);
  const grid = { rings, spokes, velocity, ratio, apart };
  // the field is the same above and below the line of the two centres
  for (let ring = 1; ring < rings - 1; ring += 1)
    for (let spoke = 0; spoke <= spokes / 2; spoke += 1) {
      const { x, y } = gridPoint(grid, ring, spoke);
      const u = velocityAt(field, x, y);
      velocity[ring * spokes + spoke] = u;
      velocity[ring * spokes + ((spokes - spoke) % spokes)] = u;
    }
  return grid;
}
