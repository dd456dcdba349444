import type { SetKind } from "./line-care.ts";

/** Every limit of looking after a line; a hospital's table fills it (src/policy). */
export interface CareLimits {
  readonly dressingTransparentDays: number;
  readonly dressingGauzeDays: number;
  /** A clean connector is left alone before this. */
  readonly connectorLeastHours: number;
  readonly connectorDueHours: number;
  readonly flushIdleDays: number;
  /** A continuous set without blood or lipid is left alone before this. */
  readonly setContinuousLeastHours: number;
  readonly setDueHours: Readonly<Record<SetKind, number>>;
  readonly reviewWardDays: number;
  /** At home the need is asked at each visit; this is the longest without one. */
  readonly reviewHomeDays: number;
  /** Days of the week that a list made before them covers, 0 Monday to 6 Sunday. */
  readonly coveredWeekdays: readonly number[];
}

export interface IdleLimits {
  readonly idleWardHours: number;
  readonly idleHomeDays: number;
  readonly longDwellDays: number;
  /** What must be covered before a line is taken out. */
  readonly coverHours: number;
  /** Infections per 1,000 idle days, for the small expected number. */
  readonly infectionsPer1000Days: number;
}

export interface PatencyLimits {
  readonly lyticFullFromKg: number;
  readonly lyticMostMg: number;
  readonly lyticMgPerMl: number;
  /** Share of the lumen's volume given below the full weight: 1.1 is 110 %. */
  readonly lyticLumenShare: number;
  readonly lyticFirstCheckMin: number;
  readonly lyticSecondCheckMin: number;
  readonly lyticDoses: number;
  readonly syringeLeastMl: number;
}

export interface RemovalLimits {
  readonly lengthToleranceCm: number;
  /** Stuck with less than this withdrawn suggests a clot. */
  readonly stuckClotBelowCm: number;
  readonly heatMin: number;
  readonly retryFromHours: number;
  readonly retryToHours: number;
}

export interface ArmLimits {
  readonly riseCm: number;
  /** Two measures farther apart on the arm than this are not compared. */
  readonly samePlaceCm: number;
}
