/** A circle in units of the vein's long half axis, measured from the vein's centre; x lies along the long axis. */
export interface CircularCatheter {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A vein's cross-section with what lies in it. */
export interface VeinSection {
  /** Short over long axis: 1 for a round vein. */
  readonly axisRatio: number;
  readonly catheters: readonly CircularCatheter[];
}

export type SectionRefusal =
  | "the axis ratio is not from 0.2 to 1"
  | "there is no catheter, or there are more than six"
  | "a catheter's radius is not above zero"
  | "a catheter does not lie inside the vein"
  | "two catheters overlap";

/** A narrow place between a catheter and the vein wall, or between two catheters. */
export interface Approach {
  readonly catheter: number;
  /** The other catheter, or the vein wall with its radius of curvature there. */
  readonly other: { readonly catheter: number } | { readonly wallRadius: number; readonly wallAngle: number };
  /** From the catheter's centre toward the narrow place. */
  readonly direction: number;
  readonly gap: number;
}

/** Overlap below this is rounding: a touching catheter is entered as touching. */
const TOUCH = 1e-12;
const LOOKS = 360;

/** What makes a section impossible, if anything does. */
export function sectionFault(section: VeinSection): SectionRefusal | undefined {
  const { axisRatio, catheters } = section;
  if (!(axisRatio >= 0.2 && axisRatio <= 1)) return "the axis ratio is not from 0.2 to 1";
  if (catheters.length < 1 || catheters.length > 6) return "there is no catheter, or there are more than six";
  for (const [index, one] of catheters.entries()) {
    if (!(one.radius > 0)) return "a catheter's radius is not above zero";
    if (!(one.radius < axisRatio && one.x ** 2 + (one.y / axisRatio) ** 2 < 1))
      return "a catheter does not lie inside the vein";
    if (wallApproaches(axisRatio, one).some(({ distance }) => distance < one.radius - TOUCH))
      return "a catheter does not lie inside the vein";
    for (const other of catheters.slice(index + 1))
      if (Math.hypot(one.x - other.x, one.y - other.y) < one.radius + other.radius - TOUCH)
        return "two catheters overlap";
  }
  return undefined;
}

/** The narrow places: gaps that are small beside the catheter or beside the curve of the wall. */
export function approachesOf({ axisRatio, catheters }: VeinSection): readonly Approach[] {
  return catheters.flatMap((one, index) => {
    const walls = wallApproaches(axisRatio, one)
      .filter(
        ({ distance, wallRadius }) =>
          distance - one.radius < Math.max(1.5 * one.radius, 0.4 * wallRadius) && wallRadius > 1.02 * one.radius,
      )
      .map(({ distance, wallRadius, angle }): Approach => {
        const [x, y] = [Math.cos(angle), axisRatio * Math.sin(angle)];
        return {
          catheter: index,
          other: { wallRadius, wallAngle: angle },
          direction: Math.atan2(y - one.y, x - one.x),
          gap: Math.max(0, distance - one.radius),
        };
      });
    const neighbours = catheters.flatMap((other, place): readonly Approach[] => {
      const gap = Math.hypot(one.x - other.x, one.y - other.y) - one.radius - other.radius;
      return place === index || gap > 1.5 * one.radius
        ? []
        : [
            {
              catheter: index,
              other: { catheter: place },
              direction: Math.atan2(other.y - one.y, other.x - one.x),
              gap: Math.max(0, gap),
            },
          ];
    });
    return [...walls, ...neighbours];
  });
}

interface WallApproach {
  readonly angle: number;
  readonly distance: number;
  readonly wallRadius: number;
}

/** Places of the wall nearest to a catheter's centre: each local least, settled by Newton on the slope. */
function wallApproaches(b: number, { x, y }: CircularCatheter): readonly WallApproach[] {
  if (b === 1 && Math.hypot(x, y) < 1e-9) return [{ angle: 0, distance: 1, wallRadius: 1 }];
  const far = (t: number) => Math.hypot(Math.cos(t) - x, b * Math.sin(t) - y);
  const looks = Array.from({ length: LOOKS }, (_, index) => far((2 * Math.PI * index) / LOOKS));
  return looks.flatMap((here, index): readonly WallApproach[] => {
    const before = looks[(index + LOOKS - 1) % LOOKS] as number;
    const after = looks[(index + 1) % LOOKS] as number;
    if (here > before || here >= after) return [];
    let t = (2 * Math.PI * index) / LOOKS;
    for (let step = 0; step < 30; step += 1) {
      const [cos, sin] = [Math.cos(t), Math.sin(t)];
      const slope = sin * (x - cos) - b * cos * (y - b * sin);
      const bend = cos * (x - cos) + sin * sin + b * sin * (y - b * sin) + b * b * cos * cos;
      // a bend that is not positive means a flat least: the look itself is near enough
      if (!(bend > 1e-9)) break;
      const move = slope / bend;
      t -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    const wallRadius = (Math.sin(t) ** 2 + (b * Math.cos(t)) ** 2) ** 1.5 / b;
    return [{ angle: t, distance: far(t), wallRadius }];
  });
}
