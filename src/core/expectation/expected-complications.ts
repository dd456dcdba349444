import type { AgeGroup } from "../age/index.ts";
import {
  BAND_FROM,
  COMPLICATIONS,
  type Complication,
  type ComplicationTable,
  type Feature,
} from "./complication-table.ts";

/** One line to compare: how long, what applies to it, and from which day it is looked after at home. */
export interface ExpectedLine {
  readonly group: AgeGroup;
  readonly days: number;
  /** 1 where it applies; for the ratio and the French how many steps. */
  readonly features: Partial<Readonly<Record<Feature, number>>>;
  readonly homeFromDay?: number;
}

/** Of 100 people like this: the middle, and the ends between which four of five services would lie. */
export interface Expectation {
  readonly complication: Complication;
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}

export type ExpectationRefusal =
  | "adult figures are not for children"
  | "ratio and French are one thing: keep the ratio"
  | "days must be above zero";

/** Two-sided 80 % of a normal. */
const Z_80 = 1.2816;

/**
 * Complications to be expected in 100 people with a line like this one, as a middle and an 80 % range.
 *   H = sum over bands of rate / 1000 x days x exp(sum of effects)      expected = 100 (1 - exp(-H))
 *   sd of log H = sqrt(level^2 + sum (effect sd x step)^2 + sum (band share x band sd)^2)
 * Holds: adults; each complication by itself, not to be added, since they compete; wide, because few events were
 * published. It compares groups of people and says nothing of cause.
 * Errors: a child, a missing dwell, or ratio and French together are refused in words.
 * Source: the combination described in docs/explanation/with-and-without.md. Example: reference line, 30 days, clot 1.5.
 */
export function expectedComplications(
  line: ExpectedLine,
  table: ComplicationTable,
): readonly Expectation[] | ExpectationRefusal {
  if (line.group !== "adult") return "adult figures are not for children";
  if (!(line.days > 0)) return "days must be above zero";
  if (line.features["ratio per 10 points over 35"] !== undefined && line.features["French over 4"] !== undefined)
    return "ratio and French are one thing: keep the ratio";
  return COMPLICATIONS.map((complication) => expectation(complication, line, table));
}

function expectation(complication: Complication, line: ExpectedLine, table: ComplicationTable): Expectation {
  const { perThousand, levelSd, bandSd } = table.baselines[complication];
  const features = Object.entries(line.features) as [Feature, number][];
  const effectOf = (feature: Feature) => table.effects[feature].mean[complication];
  const multiplier = Math.exp(features.reduce((sum, [feature, step]) => sum + effectOf(feature) * step, 0));
  const home = Math.exp(effectOf("home"));
  const parts = BAND_FROM.map((from, band) => {
    const to = Math.min(line.days, BAND_FROM[band + 1] ?? Infinity);
    const atHome = Math.max(0, to - Math.max(from, line.homeFromDay ?? Infinity));
    const onWard = Math.max(0, to - from) - atHome;
    return ((perThousand[band] as number) / 1000) * (onWard + atHome * home) * multiplier;
  });
  const hazard = parts.reduce((sum, part) => sum + part, 0);
  const variance =
    levelSd ** 2 +
    features.reduce((sum, [feature, step]) => sum + (table.effects[feature].sd[complication] * step) ** 2, 0) +
    parts.reduce((sum, part, band) => sum + ((part / hazard) * (bandSd[band] as number)) ** 2, 0);
  const spread = Math.exp(Z_80 * Math.sqrt(variance));
  const inHundred = (h: number) => 100 * -Math.expm1(-h);
  return {
    complication,
    middle: inHundred(hazard),
    low: inHundred(hazard / spread),
    high: inHundred(hazard * spread),
  };
}
