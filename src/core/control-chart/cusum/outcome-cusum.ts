import { cusumPath, type CusumPoint, type CusumRule } from "./path.ts";
import { checkRatio } from "./poisson-cusum.ts";

export interface Outcome {
  readonly event: boolean;
  /** Predicted chance of the event for this line, from its own risk factors. */
  readonly risk: number;
}

/**
 * Weight of one line in a risk-adjusted CUSUM.
 *   W = y ln R - ln(1 - p + R p), R the odds ratio to detect
 * Units: natural log of a likelihood ratio. Holds: 0 <= p <= 1, ratio above zero and not 1, else RangeError.
 * Source: Steiner and others 2000, Biostatistics 1:441. Example: p 0.02, R 2: +0.673345 with, -0.019803 without event.
 */
export function riskWeight({ event, risk }: Outcome, oddsRatio: number): number {
  checkRatio(oddsRatio);
  if (!(risk >= 0 && risk <= 1)) throw new RangeError(`The predicted risk is ${risk}; it must be from zero to one.`);
  return (event ? Math.log(oddsRatio) : 0) - Math.log1p((oddsRatio - 1) * risk);
}

/** Risk-adjusted CUSUM: S = max(0, S' + W), W by `riskWeight`. */
export const riskAdjustedCusum = (outcomes: readonly Outcome[], oddsRatio: number, rule: CusumRule): CusumPoint[] =>
  cusumPath(
    outcomes.map((outcome) => riskWeight(outcome, oddsRatio)),
    rule,
  );

/**
 * Running difference between predicted and seen events: a picture, no alarm.
 *   V = sum(p - y)
 * Units: events; falling is worse than predicted. Holds: as `riskWeight`. Source: common practice, no source.
 * Example: risks 0.1, 0.2 and one event in the second: 0.1, -0.7.
 */
export function predictedLessSeen(outcomes: readonly Outcome[]): number[] {
  let sum = 0;
  return outcomes.map(({ event, risk }) => (sum += risk - (event ? 1 : 0)));
}

export interface BernoulliDesign {
  /** Fall per line without and rise per line with the event, in log-likelihood. */
  readonly fall: number;
  readonly rise: number;
  /** The rise in whole falls, less one: the sum then walks on whole numbers. */
  readonly upStep: number;
}

/**
 * Whole-number steps of a Bernoulli CUSUM.
 *   r1 = -ln((1-p1)/(1-p0)), r2 = ln(p1 (1-p0) / (p0 (1-p1))), up = round(r2/r1) - 1, down 1
 * Units: steps. Holds: 0 < p0 < p1 < 1, else RangeError. Source: Reynolds and Stoumbos 1999, J Qual Technol 31:87 (from
 * memory). Example: 0.02 to 0.04: up 34.
 */
export function bernoulliDesign(inControl: number, outOfControl: number): BernoulliDesign {
  if (!(inControl > 0 && outOfControl > inControl && outOfControl < 1))
    throw new RangeError(`The chances ${inControl} and ${outOfControl} must rise and lie between zero and one.`);
  const fall = -Math.log((1 - outOfControl) / (1 - inControl));
  const rise = Math.log((outOfControl * (1 - inControl)) / (inControl * (1 - outOfControl)));
  return { fall, rise, upStep: Math.round(rise / fall) - 1 };
}

/** Bernoulli CUSUM on whole numbers: up by `upStep` with the event, down by one without, never below zero. */
export const bernoulliCusum = (events: readonly boolean[], upStep: number, rule: CusumRule): CusumPoint[] =>
  cusumPath(
    events.map((event) => (event ? upStep : -1)),
    rule,
  );
