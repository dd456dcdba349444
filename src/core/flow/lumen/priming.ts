import { millilitre, type Centimetre, type Millilitre, type SquareMillimetre } from "../../quantity/index.ts";

/**
 * Volume that fills one lumen.
 *   V = area x length / 100 + hub,   mL from mm2 and cm
 * Holds: length and hub not below zero, else RangeError. Source: geometry.
 * Example: 4 Fr single, wall 0.25 mm, 50 cm: 0.273 mL plus hub and extension.
 */
export function primingVolume(area: SquareMillimetre, lengthCm: Centimetre, hubMl: Millilitre): Millilitre {
  if (!(lengthCm >= 0 && hubMl >= 0))
    throw new RangeError(`Length ${lengthCm} cm and hub ${hubMl} mL must not be below zero.`);
  return millilitre((area * lengthCm) / 100 + hubMl);
}

export type TrimmedVolume =
  | { readonly kind: "volume"; readonly volumeMl: Millilitre }
  | {
      readonly kind: "refused";
      readonly reason: "cut longer than the catheter" | "more cut away than the label holds";
    };

/**
 * A label's priming volume after the catheter is cut.
 *   V = label - area x (label length - cut length) / 100
 * Holds: the label's volume is for the label's length with hub. Refused when cut longer than the catheter is, or when
 * the cut-off part would hold more than the label: then the bore is not what was entered.
 * Source: geometry. Example: 0.60 mL at 55 cm, 0.54542 mm2, cut to 42 cm: 0.529 mL.
 */
export function primingAfterTrim(
  label: { readonly volumeMl: Millilitre; readonly lengthCm: Centimetre },
  area: SquareMillimetre,
  cutToCm: Centimetre,
): TrimmedVolume {
  if (!(cutToCm >= 0 && cutToCm <= label.lengthCm)) return { kind: "refused", reason: "cut longer than the catheter" };
  const left = label.volumeMl - (area * (label.lengthCm - cutToCm)) / 100;
  return left >= 0
    ? { kind: "volume", volumeMl: millilitre(left) }
    : { kind: "refused", reason: "more cut away than the label holds" };
}
