import { columnsOf, leastSquares } from "../numeric/least-squares.ts";
import { basisOf, type Basis } from "./basis.ts";
import { imagePlaces } from "./image-places.ts";
import { approachesOf, sectionFault, type CircularCatheter, type SectionRefusal, type VeinSection } from "./section.ts";
import { wallPlaces, type Fineness, type WallPlaces } from "./wall-places.ts";

export interface SectionFlow {
  readonly kind: "flow";
  /** Share of the flow of the same vein without catheters, at the same pressure gradient. */
  readonly relativeFlow: number;
  /** Largest possible error of it, from the slip left on the walls. */
  readonly errorBound: number;
  /** True when the bound is within the asked tolerance. */
  readonly reached: boolean;
  /** Unknowns of the last fit. */
  readonly unknowns: number;
  /** Multiple of the open vein's mean velocity; 0 outside the blood. */
  readonly velocityAt: (x: number, y: number) => number;
}

export type SectionAnswer = SectionFlow | { readonly kind: "refused"; readonly reason: SectionRefusal };

/** Orders tried in turn. */
const ORDERS = [14, 28, 50];
const placesFor = (order: number): Fineness => ({
  even: Math.max(32, 4 * order),
  shift: 0,
  growth: 1.35,
  nearest: 1e-3,
});
/** Where the slip is looked for: finer, between the others, and not nearer to a contact, where all velocities vanish. */
const LOOKS: Fineness = { even: 240, shift: 0.5, growth: 1.12, nearest: 2e-3 };

/**
 * Flow through any vein of round or oval section with one to six catheters in it, by boundary collocation.
 *   u = (1 - x^2 - y^2/b^2) / (2 (1 + 1/b^2)) + harmonic functions of `basisOf`, fitted to no slip on every wall
 *   Q = INT u, each term in closed form;   |error of Q| <= area x largest slip (maximum principle)
 * The slip is looked for at other and more places than the fit used. The order rises until the bound is within
 * `tolerance`; `reached` says whether it came there.
 * Holds: rigid walls, steady flow, same pressure gradient; catheters may touch the wall or each other. Refused when the
 * section is impossible. The bound is of the sampled slip: a peak between samples could exceed it a little.
 * Source: collocation for harmonic functions, Sparrow EM, Loeffler AL 1959, AIChE J 5:325 (from memory); basis ours.
 * A catheter thinner than a tenth of the vein that touches the wall is bounded to 3e-6 only; its error is below 1e-8.
 * Example: two catheters of a quarter of the vein, both touching the wall on opposite sides: 0.4887.
 */
export function solveSection(section: VeinSection, tolerance: number): SectionAnswer {
  if (!(tolerance > 0)) throw new RangeError(`The tolerance is ${tolerance}; it must be above zero, for example 1e-6.`);
  const reason = sectionFault(section);
  if (reason) return { kind: "refused", reason };
  const turn = turnFor(section);
  const turned = turnedBy(section, turn);
  const approaches = approachesOf(turned);
  const images = imagePlaces(turned, approaches);
  // an oval vein can be nearest above and below: then the images do not lie on the axis, and both halves are fitted
  const mirrored = [...turned.catheters, ...images].every(({ y }) => Math.abs(y) < 1e-12);
  const open = openFlow(turned.axisRatio);
  const area = turned.catheters.reduce((left, { radius }) => left - Math.PI * radius ** 2, Math.PI * turned.axisRatio);
  const looks = wallPlaces(turned, approaches, LOOKS, mirrored);
  let best: { readonly basis: Basis; readonly weights: Float64Array; readonly bound: number } | undefined;
  for (const order of ORDERS) {
    const basis = basisOf(turned, images, order, mirrored);
    const fitAt = wallPlaces(turned, approaches, placesFor(order), mirrored);
    const weights = fit(turned, basis, fitAt);
    const bound = (area * largestSlip(turned, basis, weights, looks)) / open;
    if (!best || bound < best.bound) best = { basis, weights, bound };
    if (best.bound <= tolerance) break;
  }
  const { basis, weights, bound } = best as NonNullable<typeof best>;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const row = new Float64Array(basis.size);
  return {
    kind: "flow",
    relativeFlow: (particularFlow(turned) + dot(basis.integrals, weights)) / open,
    errorBound: bound,
    reached: bound <= tolerance,
    unknowns: basis.size,
    velocityAt: (x, y) => {
      const [tx, ty] = [x * cos + y * sin, y * cos - x * sin];
      if (!inBlood(turned, tx, ty)) return 0;
      basis.fill(tx, mirrored ? Math.abs(ty) : ty, row);
      return ((particular(turned.axisRatio, tx, ty) + dot(row, weights)) * Math.PI * turned.axisRatio) / open;
    },
  };
}

/** A round vein is turned so that its outermost catheter lies on the x axis: one catheter is then always mirrored. */
function turnFor({ axisRatio, catheters }: VeinSection): number {
  if (axisRatio !== 1) return 0;
  let outermost = catheters[0] as CircularCatheter;
  for (const one of catheters) if (Math.hypot(one.x, one.y) > Math.hypot(outermost.x, outermost.y)) outermost = one;
  return Math.atan2(outermost.y, outermost.x);
}

function turnedBy(section: VeinSection, turn: number): VeinSection {
  if (turn === 0) return section;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const catheters = section.catheters.map(({ x, y, radius }) => {
    const across = y * cos - x * sin;
    return { x: x * cos + y * sin, y: Math.abs(across) < 1e-15 ? 0 : across, radius };
  });
  return { axisRatio: section.axisRatio, catheters };
}

const particular = (b: number, x: number, y: number) => (1 - x * x - (y / b) ** 2) / (2 * (1 + 1 / (b * b)));
const openFlow = (b: number) => ((Math.PI / 4) * b ** 3) / (1 + b * b);

function particularFlow({ axisRatio, catheters }: VeinSection): number {
  return catheters.reduce(
    (flow, { x, y, radius }) => flow - Math.PI * radius ** 2 * (particular(axisRatio, x, y) - radius ** 2 / 8),
    openFlow(axisRatio),
  );
}

function inBlood({ axisRatio, catheters }: VeinSection, x: number, y: number): boolean {
  return x * x + (y / axisRatio) ** 2 < 1 && catheters.every((one) => Math.hypot(x - one.x, y - one.y) > one.radius);
}

function fit({ axisRatio }: VeinSection, basis: Basis, places: WallPlaces): Float64Array {
  const rows = Math.max(places.length / 2, basis.size);
  const table = columnsOf(rows, basis.size);
  const right = new Float64Array(rows);
  const row = new Float64Array(basis.size);
  for (let index = 0; index < places.length / 2; index += 1) {
    const [x, y] = [places[2 * index] as number, places[2 * index + 1] as number];
    basis.fill(x, y, row);
    right[index] = -particular(axisRatio, x, y);
    for (let column = 0; column < basis.size; column += 1) table.values[column * rows + index] = row[column] as number;
  }
  return leastSquares(table, right);
}

function largestSlip({ axisRatio }: VeinSection, basis: Basis, weights: Float64Array, places: WallPlaces): number {
  const row = new Float64Array(basis.size);
  let largest = 0;
  for (let index = 0; index < places.length; index += 2) {
    const [x, y] = [places[index] as number, places[index + 1] as number];
    basis.fill(x, y, row);
    largest = Math.max(largest, Math.abs(particular(axisRatio, x, y) + dot(row, weights)));
  }
  return largest;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index += 1) sum += (a[index] as number) * (b[index] as number);
  return sum;
}
