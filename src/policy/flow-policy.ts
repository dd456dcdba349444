import {
  centimetre,
  millimetre,
  milliosmolePerLitre,
  type Centimetre,
  type Millimetre,
  type MilliosmolePerLitre,
} from "../core/quantity/index.ts";
import type { PolicyTable } from "./policy-table.ts";

/** The assumptions of the flow model as its readers take them. */
export interface FlowAssumptions {
  readonly wallMm: Millimetre;
  readonly septumMm: Millimetre;
  readonly shareOfResistance: number;
  readonly slowBelow: number;
  readonly haematocrit: number;
  readonly bloodOsmolarity: MilliosmolePerLitre;
  readonly veinPressureMmHg: number;
  readonly headCm: Centimetre;
}

export const flowAssumptionsFrom = (table: PolicyTable): FlowAssumptions => ({
  wallMm: millimetre(table["flow.wall"].value),
  septumMm: millimetre(table["flow.septum"].value),
  shareOfResistance: table["flow.share-of-resistance"].value,
  slowBelow: table["flow.slow-below"].value,
  haematocrit: table["flow.haematocrit"].value,
  bloodOsmolarity: milliosmolePerLitre(table["flow.blood-osmolarity"].value),
  veinPressureMmHg: table["flow.vein-pressure"].value,
  headCm: centimetre(table["flow.head"].value),
});
