import { centimetre, millimetreToCentimetre, type Centimetre, type Millimetre } from "../quantity/index.ts";

/** Where a point on the skin lies. The preferred half is the upper half of the middle third. */
export const ARM_BANDS = ["lower third", "lower half of the middle third", "preferred half", "upper third"] as const;
export type ArmBand = (typeof ARM_BANDS)[number];

export interface Thirds {
  /** Medial epicondyle to axillary line. */
  readonly armLengthCm: Centimetre;
  /** End of the lower third, L/3. */
  readonly middleFromCm: Centimetre;
  /** Start of the preferred half, L/2. */
  readonly preferredFromCm: Centimetre;
  /** Start of the upper third, 2L/3. */
  readonly upperFromCm: Centimetre;
}

/**
 * Splits the upper arm into thirds and finds the upper half of the middle third.
 *   L/3, L/2, 2L/3 from the medial epicondyle, L the distance to the axillary line
 * Holds: arm abducted 90 degrees, turned out, elbow straight; any length above zero.
 * Source: Dawson RB 2011, J Assoc Vasc Access 16(3):156 (the thirds); measuring details from memory.
 * Example: 21 cm gives 7, 10.5 and 14 cm.
 */
export function thirdsOf(armLengthCm: Centimetre): Thirds {
  return {
    armLengthCm,
    middleFromCm: centimetre(armLengthCm / 3),
    preferredFromCm: centimetre(armLengthCm / 2),
    upperFromCm: centimetre((2 * armLengthCm) / 3),
  };
}

/** The band a point lies in. Bands are closed below and open above: exactly L/2 is in the preferred half. */
export function bandAt(thirds: Thirds, atCm: Centimetre): ArmBand {
  if (atCm < thirds.middleFromCm) return "lower third";
  if (atCm < thirds.preferredFromCm) return "lower half of the middle third";
  if (atCm < thirds.upperFromCm) return "preferred half";
  return "upper third";
}

export type Border = "lower border of the middle third" | "upper border of the middle third";

/** The border of the middle third that the tape cannot tell the point from, if there is one. */
export function borderWithinTapeError(thirds: Thirds, atCm: Centimetre, tapeErrorMm: Millimetre): Border | undefined {
  const error = millimetreToCentimetre(tapeErrorMm);
  if (Math.abs(atCm - thirds.middleFromCm) < error) return "lower border of the middle third";
  if (Math.abs(atCm - thirds.upperFromCm) < error) return "upper border of the middle third";
  return undefined;
}
