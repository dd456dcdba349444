import { centimetre, type Centimetre, type Millimetre } from "../quantity/index.ts";

export interface Trim {
  /** Catheter inside the body: vein, needle track and tunnel. */
  readonly insideCm: Centimetre;
  readonly outsideCm: Centimetre;
  readonly totalCm: Centimetre;
}

/**
 * What to cut: in the vein, along the needle track, through the tunnel, and what stays outside.
 *   inside = vein + (track + tunnel) / 10      total = inside + outside (cm; track and tunnel in mm)
 * Holds: a straight track. Source: the parts of one catheter, added up.
 * Example: 38 cm, 17 mm of track, no tunnel, 3 cm outside: 39.7 cm inside, cut at 42.7 cm.
 */
export function trimOf(parts: {
  readonly fromVeinEntryCm: Centimetre;
  readonly trackMm: Millimetre;
  readonly tunnelMm: Millimetre;
  readonly outsideCm: Centimetre;
}): Trim {
  const inside = parts.fromVeinEntryCm + (parts.trackMm + parts.tunnelMm) / 10;
  return { insideCm: centimetre(inside), outsideCm: parts.outsideCm, totalCm: centimetre(inside + parts.outsideCm) };
}
