import { normalLowerTail } from "../distribution/index.ts";
import { isMissing } from "../missing/index.ts";
import { frenchToMillimetre, type Millimetre } from "../quantity/index.ts";
import type { Verdict } from "../reason/index.ts";
import type { StockCatheter } from "./stock-catheter.ts";

/** True outside diameter at the vein where the label gives it, else the nominal French divided by three. */
export function outsideDiameter(catheter: StockCatheter): Millimetre {
  return isMissing(catheter.outsideDiameterMm)
    ? frenchToMillimetre(catheter.nominalFrench)
    : catheter.outsideDiameterMm;
}

export interface RatioCuts {
  /** Largest share of the vein's diameter the catheter may take, for example 0.45. */
  readonly limit: number;
  readonly chanceMet: number;
  readonly chanceNotMet: number;
}

export interface RatioJudgement {
  readonly ratio: number;
  /** 95 % interval: the diameter's interval, transformed. */
  readonly ratioLow: number;
  readonly ratioHigh: number;
  /** Chance that the true ratio is within the limit. */
  readonly chance: number;
  readonly verdict: Verdict;
}

/** Two-sided 95 % of a normal. */
const Z_95 = 1.96;

/**
 * Catheter-to-vein ratio by diameter, its interval, and the chance that the true ratio is within a limit.
 *   ratio = OD / d      chance = P(true d >= OD / limit) = Phi((d - OD / limit) / SD)
 *   OD outside diameter at the vein, d measured inside diameter, SD of the true diameter given the readings
 * Met at a chance of `chanceMet` or more, not met at `chanceNotMet` or less, at the limit between: rounding never decides.
 * Holds: reading error normal; d > 0, SD > 0. The upper end is infinite when the interval of d reaches zero.
 * Source: definition, Sharp R and others 2015, Int J Nurs Stud 52:677; the doubt is our own arithmetic.
 * Example: 5 Fr in 3.80 mm, SD 0.3: 43.9 %, chance 0.63, at the limit of 45 %.
 */
export function judgeRatio(
  vein: { readonly outsideDiameterMm: Millimetre; readonly diameterMm: Millimetre; readonly sdMm: Millimetre },
  cuts: RatioCuts,
): RatioJudgement {
  const chance = normalLowerTail((vein.diameterMm - vein.outsideDiameterMm / cuts.limit) / vein.sdMm);
  const narrow = vein.diameterMm - Z_95 * vein.sdMm;
  return {
    ratio: vein.outsideDiameterMm / vein.diameterMm,
    ratioLow: vein.outsideDiameterMm / (vein.diameterMm + Z_95 * vein.sdMm),
    ratioHigh: narrow > 0 ? vein.outsideDiameterMm / narrow : Infinity,
    chance,
    verdict: chance >= cuts.chanceMet ? "met" : chance <= cuts.chanceNotMet ? "not met" : "at the limit",
  };
}
