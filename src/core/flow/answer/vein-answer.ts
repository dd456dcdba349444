import type { Millimetre } from "../../quantity/index.ts";
import { meanWallShear } from "../field/wall-shear.ts";
import { openVeinSlowShare, slowShare } from "../field/slow-share.ts";
import { veinField } from "../field/vein-field.ts";
import { flowByAssumption, type FlowByAssumption } from "../vein/assumption.ts";
import { residualFlow } from "../vein/residual-flow.ts";
import { flowSensitivity } from "../vein/sensitivity.ts";
import { flowPair, flowPairBand, type FlowPair, type FlowPairBand } from "../vein/vein-pair.ts";

export interface VeinQuestion {
  readonly outsideDiameterMm: Millimetre;
  readonly diameterMm: Millimetre;
  readonly sdMm: Millimetre;
  /** 0 in the middle, 1 leaning on the wall. */
  readonly offset: number;
}

export interface VeinAnswer {
  readonly pair: FlowPair;
  /** The pair at both ends of the diameter's 95 % interval; undefined where no doubt was given. */
  readonly band: FlowPairBand | undefined;
  /** At the asked place: share of the open vein's flow. */
  readonly here: number;
  readonly assumptions: FlowByAssumption;
  /** Per cent of flow for one per cent of diameter. */
  readonly sensitivity: number;
  /** Mean shear on the vein's wall, in multiples of the open vein's, at the same gradient. */
  readonly veinWallShear: number;
  readonly slowOfBlood: number;
  readonly openSlow: number;
  /** What one more French leaves; undefined when it would fill the vein. */
  readonly oneFrenchMore: FlowPair | undefined;
}

const Z_95 = 1.96;
const ONE_FRENCH_MM = 1 / 3;

/**
 * Everything the flow page says of one catheter in one vein.
 * Holds: as `flowPair`, which refuses a catheter that fills the vein. Source: the functions it is made of.
 * Example: 4 Fr in 4.0 mm leaves 26.8 to 57.2 per cent; one French more 19.0 to 42.5.
 */
export function veinAnswer(
  { outsideDiameterMm, diameterMm, sdMm, offset }: VeinQuestion,
  assumed: { readonly shareOfResistance: number; readonly slowBelow: number },
): VeinAnswer | Exclude<ReturnType<typeof flowPair>, FlowPair> {
  const pair = flowPair({ outsideDiameterMm, diameterMm });
  if (pair.kind === "refused") return pair;
  const more = flowPair({ outsideDiameterMm: (outsideDiameterMm + ONE_FRENCH_MM) as Millimetre, diameterMm });
  const here = residualFlow(pair.ratio, offset);
  return {
    pair,
    band: sdMm > 0 ? flowPairBand({ outsideDiameterMm, diameterMm, sdMm }, Z_95) : undefined,
    here,
    assumptions: flowByAssumption(here, assumed.shareOfResistance),
    sensitivity: flowSensitivity(pair.ratio, offset),
    veinWallShear: meanWallShear(pair.ratio, offset).vein,
    slowOfBlood: slowShare(veinField(pair.ratio, offset), assumed.slowBelow).ofBlood,
    openSlow: openVeinSlowShare(assumed.slowBelow),
    oneFrenchMore: more.kind === "flow" ? more : undefined,
  };
}
