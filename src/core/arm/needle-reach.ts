import { degree, degreeToRadian, millimetre, type Degree, type Millimetre } from "../quantity/index.ts";
import { needlePath, type NeedlePath } from "./needle-path.ts";

export type NeedleReach =
  | { readonly kind: "path"; readonly path: NeedlePath; readonly needleTooShort: boolean }
  | {
      readonly kind: "refused";
      readonly reason: "the depth is below zero" | "the angle is not above 0 and at most 90 degrees";
    };

/**
 * The needle's path with its inputs held to what a needle can do, and whether the needle is long enough.
 *   track = h / sin(t) > needle length
 * Refused for a depth below zero and for an angle that is not above 0 and at most 90 degrees.
 * Source: as `needlePath`. Example: 13 mm at 30 degrees: 22.5 mm back, 26.0 mm of track; a 21 mm needle is too short.
 */
export function needleReach(
  entry: Parameters<typeof needlePath>[0] & { readonly needleLengthMm: Millimetre },
): NeedleReach {
  if (!(entry.depthMm >= 0)) return { kind: "refused", reason: "the depth is below zero" };
  if (!(entry.angle > 0 && entry.angle <= 90))
    return { kind: "refused", reason: "the angle is not above 0 and at most 90 degrees" };
  const path = needlePath(entry);
  return { kind: "path", path, needleTooShort: path.trackMm > entry.needleLengthMm };
}

/**
 * The angle at which a needle of a wanted track reaches a depth; undefined when the track is shorter than the depth.
 *   t = asin(h / track)
 * Holds: h >= 0, track > 0. Source: plane geometry. Example: 15 mm deep along 30 mm: 30 degrees.
 */
export function angleForTrack(depthMm: Millimetre, trackMm: Millimetre): Degree | undefined {
  if (!(depthMm >= 0 && trackMm > 0 && trackMm >= depthMm)) return undefined;
  return degree((Math.asin(depthMm / trackMm) * 180) / Math.PI);
}

/**
 * What of a short catheter comes to lie in the vein.
 *   inside = length - h / sin(t), never below zero
 * Holds: length > 0, h >= 0, 0 < t <= 90 degrees, else undefined. Source: plane geometry.
 * Example: 48 mm, 8 mm deep at 30 degrees: 32.0 mm, two thirds of it.
 */
export function lengthInVein(
  lengthMm: Millimetre,
  depthMm: Millimetre,
  angle: Degree,
): { readonly insideMm: Millimetre; readonly share: number } | undefined {
  if (!(lengthMm > 0 && depthMm >= 0 && angle > 0 && angle <= 90)) return undefined;
  const inside = Math.max(0, lengthMm - depthMm / Math.sin(degreeToRadian(angle)));
  return { insideMm: millimetre(inside), share: inside / lengthMm };
}
