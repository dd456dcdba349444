import type { Approach, CircularCatheter, VeinSection } from "./section.ts";

/** Where poles help: points outside the blood, each with the body it lies in; undefined is outside the vein. */
export interface ImagePlace {
  readonly x: number;
  readonly y: number;
  readonly inside: number | undefined;
  /** Which reflection, from 1. */
  readonly order: number;
}

/** Orders of reflection that get a pole when the images lie close together: between them poles stand for each other. */
const SPARSE = [1, 2, 3, 4, 5, 6.5, 8.5, 11, 14, 18, 24, 32, 42, 56, 75, 100];
/** Where they lie far apart every one counts, and few are needed. */
const EVERY = Array.from({ length: 20 }, (_, index) => index + 1);
const FAR_APART = 0.35;
const FAR = 20;
/** Where further images crowd on the limit point. */
const CROWDED = 8;

/**
 * The images that two near circles throw into each other: the poles of the velocity beyond the walls.
 *   inside the catheter  M coth(beta + m W),  beyond the wall  -M coth(m W), from the middle of the bipolar poles
 *   W = beta + beta' between catheters, beta - alpha under the wall; when touching 1/(1/r + m Omega), Omega = W/M
 * The wall counts as its circle of curvature. Source: method of images, as in `veinField`.
 */
export function imagePlaces(section: VeinSection, approaches: readonly Approach[]): readonly ImagePlace[] {
  return approaches.flatMap((approach) => {
    const catheter = section.catheters[approach.catheter] as CircularCatheter;
    const otherRadius =
      "catheter" in approach.other
        ? (section.catheters[approach.other.catheter] as CircularCatheter).radius
        : approach.other.wallRadius;
    const underWall = !("catheter" in approach.other);
    const pair = pairOf(catheter.radius, otherRadius, underWall, approach.gap);
    // nearly concentric: the poles are far away and the polynomials see them as well
    if (!(pair.fromCentre < FAR * otherRadius)) return [];
    const [cos, sin] = [Math.cos(approach.direction), Math.sin(approach.direction)];
    const at = (fromOrigin: number, order: number, inside: number | undefined): ImagePlace => {
      // the origin lies beyond the catheter's near side, by its own distance from the centre
      const along = pair.fromCentre - fromOrigin;
      return { x: catheter.x + along * cos, y: catheter.y + along * sin, inside, order };
    };
    const places: ImagePlace[] = [];
    for (const m of pair.width > FAR_APART ? EVERY : SPARSE) {
      places.push(at(pair.within(m), m, approach.catheter));
      if (underWall) places.push(at(-pair.beyond(m), m, undefined));
      if (m * pair.width > CROWDED) break;
    }
    return places;
  });
}

interface CirclePair {
  readonly width: number;
  /** From the middle of the poles to the catheter's centre. */
  readonly fromCentre: number;
  readonly within: (m: number) => number;
  readonly beyond: (m: number) => number;
}

function pairOf(radius: number, other: number, underWall: boolean, gap: number): CirclePair {
  const apart = underWall ? other - radius - gap : other + radius + gap;
  const product = underWall
    ? gap * (other - apart + radius) * (other - radius + apart) * (other + apart + radius)
    : gap * (apart + radius + other) * (apart - radius + other) * (apart + radius - other);
  const pole = apart > 0 ? Math.sqrt(Math.max(0, product)) / (2 * apart) : Number.POSITIVE_INFINITY;
  const pace = underWall ? 1 / radius - 1 / other : 1 / radius + 1 / other;
  if (pole < 1e-9 * radius)
    return {
      width: 0,
      fromCentre: radius,
      within: (m) => 1 / (1 / radius + m * pace),
      beyond: (m) => 1 / (m * pace),
    };
  const beta = Math.asinh(pole / radius);
  const width = underWall ? beta - Math.asinh(pole / other) : beta + Math.asinh(pole / other);
  return {
    width,
    fromCentre: pole / Math.tanh(beta),
    within: (m) => pole / Math.tanh(beta + m * width),
    beyond: (m) => pole / Math.tanh(m * width),
  };
}
