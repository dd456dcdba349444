/** Limits of reading cultures; a hospital's table fills them (src/policy). */
export interface CultureLimits {
  readonly differentialMin: number;
  readonly drawGapMin: number;
  readonly loadGapMin: number;
  /** Larger over smaller volume that still compares. */
  readonly volumeRatio: number;
  readonly fold: number;
  readonly foldOlder: number;
  readonly rollPlateCfu: number;
  readonly sonicationCfu: number;
}

export interface InfectionLimits {
  readonly exitSiteCm: number;
  readonly treatedGrowthHours: number;
  readonly lockFromDays: number;
  readonly lockToDays: number;
}

export interface ThrombosisLimits {
  /** Score from which a clot counts as likely. */
  readonly likelyFrom: number;
  readonly anticoagulateMonths: number;
}
