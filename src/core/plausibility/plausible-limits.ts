import {
  centimetre,
  kilogram,
  millimetre,
  type Centimetre,
  type Kilogram,
  type Millimetre,
} from "../quantity/index.ts";

/** Beyond these an entry is asked about: it may be in another unit, or a point may be lost. Nothing is converted. */
export interface PlausibleLimits {
  /** A young child heavier than this many times the usual weight for its age is asked about. */
  readonly timesUsualWeight: number;
  /** A child lighter than this share of the usual weight is asked about: months typed as years look so. */
  readonly shareOfUsualWeight: number;
  readonly leastAdultWeightKg: Kilogram;
  readonly leastBodyMassIndex: number;
  readonly mostBodyMassIndex: number;
  readonly shortestAdultCm: Centimetre;
  /** An adult's tape from arm to heart shorter than this is asked about. */
  readonly shortestAdultTapeCm: Centimetre;
  readonly shortestAdultArmCm: Centimetre;
  readonly longestAdultArmCm: Centimetre;
  /** Upper arm as a share of the height, at any age. */
  readonly mostArmShareOfHeight: number;
  readonly narrowestVeinMm: Millimetre;
  readonly widestVeinMm: Millimetre;
  readonly shallowestAdultVeinMm: Millimetre;
}

/** Limits that ask about nothing, for moving a number on purpose: a doubt about its unit is then no change of plan. */
export const noQuestions: PlausibleLimits = {
  timesUsualWeight: Infinity,
  shareOfUsualWeight: 0,
  leastAdultWeightKg: kilogram(0),
  leastBodyMassIndex: 0,
  mostBodyMassIndex: Infinity,
  shortestAdultCm: centimetre(0),
  shortestAdultTapeCm: centimetre(0),
  shortestAdultArmCm: centimetre(0),
  longestAdultArmCm: centimetre(Infinity),
  mostArmShareOfHeight: Infinity,
  narrowestVeinMm: millimetre(0),
  widestVeinMm: millimetre(Infinity),
  shallowestAdultVeinMm: millimetre(0),
};
