import {
  micromolePerLitre,
  milligramPerDecilitre,
  type MicromolePerLitre,
  type MilligramPerDecilitre,
} from "../quantity/index.ts";

/** Molar mass of creatinine is 113.12 g/mol, so 1 mg/dL is 88.40 umol/L. */
const MICROMOLE_PER_MILLIGRAM = 88.4;

export const CREATININE_UNITS = ["mg/dL", "umol/L"] as const;
export type CreatinineUnit = (typeof CREATININE_UNITS)[number];

/** A creatinine as the laboratory wrote it. The unit has no default: 1.9 and 168 are one value. */
export interface Creatinine {
  readonly value: number;
  readonly unit: CreatinineUnit;
}

/**
 * Creatinine in both units, so that the reader meets the one they know.
 *   umol/L = 88.4 x mg/dL
 * Source: molar mass 113.12 g/mol. Example: 1.9 mg/dL is 168 umol/L.
 */
export function creatinineInBoth({ value, unit }: Creatinine): {
  readonly mgPerDl: MilligramPerDecilitre;
  readonly umolPerL: MicromolePerLitre;
} {
  return unit === "mg/dL"
    ? { mgPerDl: milligramPerDecilitre(value), umolPerL: micromolePerLitre(value * MICROMOLE_PER_MILLIGRAM) }
    : { mgPerDl: milligramPerDecilitre(value / MICROMOLE_PER_MILLIGRAM), umolPerL: micromolePerLitre(value) };
}
