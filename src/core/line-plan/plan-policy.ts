import type { LidocaineRows } from "../anaesthetic/index.ts";
import type { Vein } from "../arm/index.ts";
import type { PlausibleLimits } from "../plausibility/index.ts";
import type { Centimetre, Day, Degree, French, Kilogram, Millimetre } from "../quantity/index.ts";

/** How heavily a reason against an arm weighs: bar stops, strong asks, weak notes. */
export const BAR_STRENGTHS = ["bar", "strong", "weak"] as const;
export type BarStrength = (typeof BAR_STRENGTHS)[number];

export interface WeightBand {
  /** The band holds up to and including this weight; Infinity for the last. */
  readonly upToKg: Kilogram;
  readonly largestFrench: French;
}

/** Every limit the planner reads, as values. src/policy builds it from the local table and knows each one's source. */
export interface PlanPolicy {
  readonly tapeErrorMm: Millimetre;
  readonly oneReadingSdMm: Millimetre;
  readonly floorSdMm: Millimetre;
  readonly perCentimetreSdMm: Millimetre;
  /** The limit in force: the adult row until `policyFor` puts the patient's own row in its place. */
  readonly ratioLimit: number;
  readonly ratioLimitChild: number;
  readonly ratioLimitNewborn: number;
  readonly ratioMarks: readonly number[];
  readonly chanceMet: number;
  readonly chanceNotMet: number;
  readonly anglesDegree: readonly Degree[];
  readonly angleErrorDegree: Degree;
  /** Depth from which a person is asked, and beyond which the vein is not used. */
  readonly depthAskMm: Millimetre;
  readonly depthStopMm: Millimetre;
  readonly leastTunnelMm: Millimetre;
  /** Farther than this from a measurement, a person is asked to look. */
  readonly farReadingMm: Millimetre;
  readonly veinOrder: readonly Vein[];
  readonly weightBands: readonly WeightBand[];
  readonly newbornUnderDays: Day;
  readonly adultFromYears: number;
  readonly armBars: Readonly<Record<string, BarStrength>>;
  readonly gridMm: Millimetre;
  readonly greatestLumens: number;
  readonly lengthsAgreeWithinCm: { readonly adult: Centimetre; readonly child: Centimetre };
  readonly carinaToJunctionCm: Centimetre;
  readonly plausible: PlausibleLimits;
  readonly lidocaine: LidocaineRows;
}
