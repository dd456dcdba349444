import { outsideDiameter, type StockCatheter } from "../../catheter/index.ts";
import { isMissing } from "../../missing/index.ts";
import {
  celsius,
  millilitrePerHour,
  type Centimetre,
  type MillilitrePerHour,
  type MillilitrePerSecond,
  type Millimetre,
  type Pascal,
} from "../../quantity/index.ts";
import { waterViscosity } from "../fluid/water.ts";
import { dividedBore } from "./divided-bore.ts";
import type { LumenRefused } from "./lumen.ts";
import { lumenFlow, PIPE_CUTS, type FlowingFluid, type FlowRegime, type RegimeCuts } from "./lumen-flow.ts";

export interface CarryDemand {
  readonly rate: MillilitrePerHour;
  readonly fluid: FlowingFluid;
  /** What drives it: a head less the vein's pressure, or a pump's limit. */
  readonly drive: Pascal;
  readonly lengthCm: Centimetre;
}

/** What is assumed of a catheter whose bore no label tells. */
export interface AssumedWalls {
  readonly wallMm: Millimetre;
  readonly septumMm: Millimetre;
}

export type CarryAnswer =
  | {
      readonly kind: "label";
      readonly most: MillilitrePerHour;
      readonly carries: boolean;
      /** The label is for water: a thicker fluid runs slower than it says. */
      readonly thickerThanWater: boolean;
    }
  | {
      readonly kind: "model, teaching only";
      readonly most: MillilitrePerHour;
      readonly carries: boolean;
      readonly regime: FlowRegime;
    }
  | LumenRefused;

/**
 * Whether a catheter of the shelf can carry a rate.
 *   label    rate <= flow on the label
 *   model    rate <= `lumenFlow` of one lumen of `dividedBore` with the assumed walls
 * The label beats the model: the model is asked only when the label is blank.
 * Holds: as `lumenFlow`; refused when the assumed walls leave no lumen. Source: as `lumenFlow`.
 * Example: no label, 4 Fr double, walls 0.25 and 0.20 mm, 50 cm, water under 1 m: 70 mL/h, model, teaching only.
 */
export function canCarry(
  catheter: StockCatheter,
  demand: CarryDemand,
  walls: AssumedWalls,
  cuts: RegimeCuts = PIPE_CUTS,
): CarryAnswer {
  if (!isMissing(catheter.flowLabelMlPerHour)) {
    const most = catheter.flowLabelMlPerHour;
    return {
      kind: "label",
      most,
      carries: demand.rate <= most,
      thickerThanWater: demand.fluid.viscosity > waterViscosity(celsius(22)) * 1.02,
    };
  }
  const lumen = dividedBore({
    outsideDiameterMm: outsideDiameter(catheter),
    wallMm: walls.wallMm,
    septumMm: walls.septumMm,
    lumens: catheter.lumens,
  });
  if (lumen.kind === "refused") return lumen;
  const { flow, regime } = lumenFlow({ lumen, lengthCm: demand.lengthCm, fluid: demand.fluid }, demand.drive, cuts);
  const most = millilitrePerHour(flow * 60);
  return { kind: "model, teaching only", most, carries: demand.rate <= most, regime };
}

export type ContrastAnswer =
  | { readonly kind: "label"; readonly most: MillilitrePerSecond }
  | { readonly kind: "the label forbids it" }
  | { readonly kind: "no label, no number" };

/**
 * Contrast injection is answered by the label alone; no model stands in for it.
 * Source: the label. Example: a label of 5 mL/s gives 5; a blank label gives no number.
 */
export function contrastInjection(catheter: StockCatheter): ContrastAnswer {
  const label = catheter.contrastLabelMlPerSecond;
  if (isMissing(label)) return { kind: "no label, no number" };
  return label > 0 ? { kind: "label", most: label } : { kind: "the label forbids it" };
}
