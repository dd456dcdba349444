import type { Approach, CircularCatheter, VeinSection } from "./section.ts";

/** Places on every wall, x and y in turn. */
export type WallPlaces = Float64Array;

/** Farthest graded place from a narrow one, in radians. */
const FARTHEST = 0.7;

export interface Fineness {
  /** Even places on each wall. */
  readonly even: number;
  readonly shift: number;
  /** From one graded place to the next, and the nearest one, in radii of the catheter. */
  readonly growth: number;
  readonly nearest: number;
}

/**
 * Places on the vein wall and on every catheter: even ones, and more that crowd toward each narrow place.
 *   `shift` moves the even places by a share of their step, so that a second set falls between the first
 * With `mirrored` only the upper half is given, for sections that are the same above and below.
 */
export function wallPlaces(
  section: VeinSection,
  approaches: readonly Approach[],
  fineness: Fineness,
  mirrored: boolean,
): WallPlaces {
  const places: number[] = [];
  const along = (
    crowdedAt: readonly { readonly angle: number; readonly nearest: number }[],
    at: (angle: number) => readonly [number, number],
  ) => {
    const put = (angle: number) => {
      const [x, y] = at(angle);
      if (!mirrored || y >= -1e-14) places.push(x, y);
    };
    for (let index = 0; index < fineness.even; index += 1)
      put((2 * Math.PI * (index + fineness.shift)) / fineness.even);
    for (const { angle, nearest } of crowdedAt) {
      for (let from = FARTHEST * (1 - 0.1 * fineness.shift); from > nearest; from /= fineness.growth) {
        put(angle + from);
        put(angle - from);
      }
    }
  };
  const { axisRatio } = section;
  along(
    approaches.flatMap(({ other, catheter }) =>
      "wallAngle" in other
        ? [
            {
              angle: other.wallAngle,
              nearest: fineness.nearest * (section.catheters[catheter] as CircularCatheter).radius,
            },
          ]
        : [],
    ),
    (angle) => [Math.cos(angle), axisRatio * Math.sin(angle)],
  );
  for (const [index, { x, y, radius }] of section.catheters.entries() as IterableIterator<[number, CircularCatheter]>)
    along(
      approaches.flatMap(({ catheter, direction }) =>
        catheter === index ? [{ angle: direction, nearest: fineness.nearest }] : [],
      ),
      (angle) => [x + radius * Math.cos(angle), y + radius * Math.sin(angle)],
    );
  return Float64Array.from(places);
}
