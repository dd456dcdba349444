import { px } from "./markup.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A path through every point with the tangent of its neighbours at each, as a flexible ruler would lie. */
export function curve(points: readonly Point[], start = "M"): string {
  const first = points[0];
  if (!first) return "";
  let path = `${start}${px(first.x)} ${px(first.y)}`;
  for (let index = 0; index + 1 < points.length; index += 1) {
    const [before, from, to, after] = [
      points[index - 1] ?? points[index],
      points[index],
      points[index + 1],
      points[index + 2] ?? points[index + 1],
    ] as [Point, Point, Point, Point];
    const c1 = { x: from.x + (to.x - before.x) / 6, y: from.y + (to.y - before.y) / 6 };
    const c2 = { x: to.x - (after.x - from.x) / 6, y: to.y - (after.y - from.y) / 6 };
    path += `C${px(c1.x)} ${px(c1.y)} ${px(c2.x)} ${px(c2.y)} ${px(to.x)} ${px(to.y)}`;
  }
  return path;
}

/** Straight pieces from point to point, for what must not be smoothed. */
export const polyline = (points: readonly Point[], start = "M"): string =>
  points.map(({ x, y }, index) => `${index === 0 ? start : "L"}${px(x)} ${px(y)}`).join("");
