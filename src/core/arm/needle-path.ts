import {
  centimetre,
  degreeToRadian,
  millimetre,
  type Centimetre,
  type Degree,
  type Millimetre,
} from "../quantity/index.ts";

export interface NeedlePath {
  /** Skin entry, on the elbow side of the vein entry. */
  readonly skinCm: Centimetre;
  /** Along the arm from the skin entry to above the vein entry. */
  readonly backOffMm: Millimetre;
  /** Along the needle from skin to front wall. */
  readonly trackMm: Millimetre;
  /** Along the needle from front wall to back wall; undefined when the needle never meets the back wall. */
  readonly runToBackWallMm: Millimetre | undefined;
}

/**
 * Straight needle from the skin to the front wall of a vein.
 *   back-off = h / tan(t)   track = h / sin(t)   run to the back wall = D / sin(t - b)
 *   h depth to the front wall above the entry, t angle to the skin, D inside diameter,
 *   b deepening of the vein toward the shoulder, tan(b) = slope
 * Holds: 0 < t < 90 degrees, h >= 0, a straight needle and skin that is flat over the path.
 * Source: plane geometry.
 * Example: 12 mm deep at 45 degrees: 12.0 mm back, 17.0 mm of track.
 */
export function needlePath(entry: {
  readonly veinEntryCm: Centimetre;
  readonly depthMm: Millimetre;
  readonly angle: Degree;
  readonly diameterMm: Millimetre;
  readonly slope: number;
}): NeedlePath {
  const t = degreeToRadian(entry.angle);
  const backOff = entry.depthMm / Math.tan(t);
  const toVein = t - Math.atan(entry.slope);
  return {
    skinCm: centimetre(entry.veinEntryCm - backOff / 10),
    backOffMm: millimetre(backOff),
    trackMm: millimetre(entry.depthMm / Math.sin(t)),
    runToBackWallMm: toVein > 0 ? millimetre(entry.diameterMm / Math.sin(toVein)) : undefined,
  };
}

/** Skin entries when the hand holds the needle flatter or steeper than planned by the given error. */
export function skinBand(entry: {
  readonly veinEntryCm: Centimetre;
  readonly depthMm: Millimetre;
  readonly angle: Degree;
  readonly angleError: Degree;
}): { readonly fromCm: Centimetre; readonly toCm: Centimetre } {
  const skin = (angle: number) => entry.veinEntryCm - entry.depthMm / Math.tan((angle * Math.PI) / 180) / 10;
  return {
    fromCm: centimetre(skin(entry.angle - entry.angleError)),
    toCm: centimetre(skin(entry.angle + entry.angleError)),
  };
}
