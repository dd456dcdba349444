/** What can go wrong with a line, each on its own clock. */
export const COMPLICATIONS = ["clot", "blood infection", "blocked", "other removal"] as const;
export type Complication = (typeof COMPLICATIONS)[number];

/** Borders of the dwell bands, days; the last band has no end. */
export const BAND_FROM = [0, 7, 14, 30, 90] as const;

/** The daily rate of one complication for the reference line. */
export interface Baseline {
  /** Events per 1,000 days in each dwell band. */
  readonly perThousand: readonly [number, number, number, number, number];
  /** Standard deviation of the logarithm: between services, and of each band on its own. */
  readonly levelSd: number;
  readonly bandSd: readonly [number, number, number, number, number];
}

/** What moves a rate: mean and standard deviation of its logarithm, for each complication. */
export interface Effect {
  readonly mean: Readonly<Record<Complication, number>>;
  readonly sd: Readonly<Record<Complication, number>>;
}

export const FEATURES = [
  "brachial vein",
  "cephalic vein",
  "ratio per 10 points over 35",
  "French over 4",
  "two lumens",
  "three lumens",
  "skin in the lower third",
  "earlier clot",
  "cancer",
  "blood cancer",
  "solid cancer on chemotherapy",
  "intensive care",
  "home",
  "nutrition",
  "another central line",
  "tunnelled",
] as const;
export type Feature = (typeof FEATURES)[number];

export interface ComplicationTable {
  readonly baselines: Readonly<Record<Complication, Baseline>>;
  readonly effects: Readonly<Record<Feature, Effect>>;
}
