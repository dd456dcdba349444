import type { Millimetre } from "../../quantity/index.ts";
import { residualFlow } from "./residual-flow.ts";

/** The floor and the ceiling of the model: a catheter in the middle, and one that leans on the wall. */
export interface FlowPair {
  readonly kind: "flow";
  /** By diameter. */
  readonly ratio: number;
  /** By area: the square of the ratio. */
  readonly areaTaken: number;
  /** Shares of the open vein's flow at the same pressure gradient. */
  readonly centred: number;
  readonly touching: number;
}

export type FlowPairAnswer =
  | FlowPair
  | { readonly kind: "refused"; readonly reason: "the catheter fills the vein" | "a diameter is not above zero" };

/**
 * Residual flow of one catheter in one vein, always as the pair centred and touching.
 *   k = OD / d, then `residualFlow` at offsets 0 and 1
 * Holds: rigid round vein, steady flow, same pressure; what the vein really carries is not known.
 * Refused when the catheter is as wide as the vein or wider, or a diameter is not above zero.
 * Source: as `residualFlow`. Example: 4 Fr in 4.0 mm: 26.8 and 57.2 per cent of the open vein.
 */
export function flowPair(vein: {
  readonly outsideDiameterMm: Millimetre;
  readonly diameterMm: Millimetre;
}): FlowPairAnswer {
  const { outsideDiameterMm, diameterMm } = vein;
  if (!(outsideDiameterMm > 0 && diameterMm > 0)) return { kind: "refused", reason: "a diameter is not above zero" };
  const ratio = outsideDiameterMm / diameterMm;
  if (!(ratio < 1)) return { kind: "refused", reason: "the catheter fills the vein" };
  return {
    kind: "flow",
    ratio,
    areaTaken: ratio * ratio,
    centred: residualFlow(ratio, 0),
    touching: residualFlow(ratio, 1),
  };
}

export interface FlowPairBand {
  readonly narrow: FlowPairAnswer;
  readonly measured: FlowPairAnswer;
  readonly wide: FlowPairAnswer;
}

/**
 * The pair for the measured vein and for both ends of its doubt.
 *   d - z SD, d, d + z SD
 * Holds: as `flowPair`, which may refuse the narrow end. Source: as `flowPair`; the doubt is our own arithmetic.
 * Example: 5 Fr in 3.8 mm, SD 0.3, z 1.96: the centred flow runs from 11.4 to 22.3 per cent.
 */
export function flowPairBand(
  vein: { readonly outsideDiameterMm: Millimetre; readonly diameterMm: Millimetre; readonly sdMm: Millimetre },
  z: number,
): FlowPairBand {
  const at = (diameter: number) =>
    flowPair({ outsideDiameterMm: vein.outsideDiameterMm, diameterMm: diameter as Millimetre });
  const doubt = z * vein.sdMm;
  return { narrow: at(vein.diameterMm - doubt), measured: at(vein.diameterMm), wide: at(vein.diameterMm + doubt) };
}
