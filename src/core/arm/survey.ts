import type { Maybe } from "../missing/index.ts";
import type { Centimetre, Millimetre } from "../quantity/index.ts";

export const VEINS = ["basilic", "brachial", "second brachial", "cephalic", "axillary"] as const;
export type Vein = (typeof VEINS)[number];

export const ARTERY_PLACES = ["none", "beside", "in front"] as const;
export type ArteryPlace = (typeof ARTERY_PLACES)[number];

/**
 * One look with the probe at one distance from the medial epicondyle, short axis, no probe pressure.
 * `veinPresent: false` is a finding too: the vein is absent here, and nothing is drawn across it.
 */
export interface Station {
  readonly atCm: Centimetre;
  readonly veinPresent: boolean;
  /** Inner wall to inner wall. */
  readonly diameterMm: Maybe<Millimetre>;
  /** Skin to the front wall. */
  readonly depthMm: Maybe<Millimetre>;
  readonly artery: Maybe<ArteryPlace>;
  readonly nerveBeside: Maybe<boolean>;
  readonly compressible: Maybe<boolean>;
  readonly thrombus: Maybe<boolean>;
  readonly tourniquetOn: Maybe<boolean>;
  /** How many readings the diameter is the mean of; at least 1. */
  readonly repeats: number;
  /** ISO instant of the reading; absent when the entry does not say. */
  readonly measuredAt?: string;
}

export interface VeinSurvey {
  readonly vein: Vein;
  readonly stations: readonly Station[];
}
