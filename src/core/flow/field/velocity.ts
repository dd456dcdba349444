import type { VeinField } from "./vein-field.ts";

/** Mean velocity of the open vein in units of gradient x radius^2 / viscosity. */
const OPEN_MEAN = 1 / 8;

/**
 * Velocity at one point, as a multiple of the open vein's mean velocity at the same pressure gradient.
 *   the equation stands at `veinField`; outside the blood the answer is 0
 * Holds: every x and y, in vein radii. Source: as `veinField`. Example: an open vein has 2 in its middle.
 */
export function velocityAt(field: VeinField, x: number, y: number): number {
  const { apart, ratio } = field.annulus;
  const square = x * x + y * y;
  if (square >= 1 || (x - apart) ** 2 + y * y <= ratio * ratio) return 0;
  return blood(field, x, y, square) / OPEN_MEAN;
}

/** u for a point that lies in the blood; the hot loop of the grid. */
function blood(field: VeinField, x: number, y: number, square: number): number {
  const { images, strengths, tail } = field;
  let near = 1;
  let far = 1;
  let p = 0;
  let u = (1 - square) / 4;
  for (let m = 0; m < images.length; m += 1) {
    p = images[m] as number;
    const cross = 2 * p * x;
    near = square - cross + p * p;
    far = 1 - cross + p * p * square;
    u += ((strengths[m] as number) * ((x - p) * far - (x - p * square) * near)) / (near * far);
  }
  u -= (field.hold / 4) * Math.log(far / near);
  if (field.poleDistance === 0) return u;
  // g = 1 - 2 F z + z^2, then -g / (1 - p z)^2 and -g / (z - p)^2, by their conjugates
  const gRe = 1 - 2 * field.poleDistance * x + x * x - y * y;
  const gIm = 2 * y * (x - field.poleDistance);
  const outRe = 1 - p * x;
  const outIm = p * y;
  const inRe = x - p;
  const inIm = -y;
  return (
    u +
    polynomial(tail, gRe, gIm, outRe * outRe - outIm * outIm, 2 * outRe * outIm, far * far) -
    polynomial(tail, gRe, gIm, inRe * inRe - inIm * inIm, 2 * inRe * inIm, near * near)
  );
}

/** Real part of SUM c(i) A^i with A = -g h / scale. */
function polynomial(c: Float64Array, gRe: number, gIm: number, hRe: number, hIm: number, scale: number): number {
  const aRe = -(gRe * hRe - gIm * hIm) / scale;
  const aIm = -(gRe * hIm + gIm * hRe) / scale;
  let re = 0;
  let im = 0;
  for (let i = c.length - 1; i >= 0; i -= 1) {
    const plus = re + (c[i] as number);
    re = plus * aRe - im * aIm;
    im = plus * aIm + im * aRe;
  }
  return re;
}

/**
 * The field on a square grid of cell centres over the whole vein, row by row from y = -1.
 *   x(i) = (2 i + 1) / size - 1; 0 outside the blood
 * Holds: size a whole number from 2 to 4000, else RangeError. Source: as `velocityAt`.
 * Example: 200 x 200 points take a few milliseconds (benchmark).
 */
export function velocityGrid(field: VeinField, size: number): Float64Array {
  if (!(Number.isInteger(size) && size >= 2 && size <= 4000))
    throw new RangeError(`The grid has ${size} points a side; it must be a whole number from 2 to 4000.`);
  const grid = new Float64Array(size * size);
  const { apart, ratio } = field.annulus;
  const half = Math.ceil(size / 2);
  for (let row = 0; row < half; row += 1) {
    const y = (2 * row + 1) / size - 1;
    for (let column = 0; column < size; column += 1) {
      const x = (2 * column + 1) / size - 1;
      const square = x * x + y * y;
      if (square >= 1 || (x - apart) ** 2 + y * y <= ratio * ratio) continue;
      const u = blood(field, x, y, square) / OPEN_MEAN;
      grid[row * size + column] = u;
      grid[(size - 1 - row) * size + column] = u;
    }
  }
  return grid;
}
