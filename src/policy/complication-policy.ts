import type { CultureLimits, InfectionLimits, ThrombosisLimits } from "../core/complication/index.ts";
import type { PolicyTable } from "./policy-table.ts";

/** The limits of reading cultures, read out of the local table. */
export const cultureLimitsFrom = (table: PolicyTable): CultureLimits => ({
  differentialMin: table["complication.culture-differential"].value,
  drawGapMin: table["complication.culture-draw-gap"].value,
  loadGapMin: table["complication.culture-load-gap"].value,
  volumeRatio: table["complication.culture-volume-ratio"].value,
  fold: table["complication.quantitative-fold"].value,
  foldOlder: table["complication.quantitative-fold-older"].value,
  rollPlateCfu: table["complication.tip-roll-plate"].value,
  sonicationCfu: table["complication.tip-sonication"].value,
});

/** The limits of naming an infection and of its criteria. */
export function infectionLimitsFrom(table: PolicyTable): InfectionLimits {
  const [lockFromDays, lockToDays] = table["complication.lock-days"].value as [number, number];
  return {
    exitSiteCm: table["complication.exit-site"].value,
    treatedGrowthHours: table["complication.treated-growth"].value,
    lockFromDays,
    lockToDays,
  };
}

export const thrombosisLimitsFrom = (table: PolicyTable): ThrombosisLimits => ({
  likelyFrom: table["complication.clot-likely-from"].value,
  anticoagulateMonths: table["complication.anticoagulate"].value,
});
