import { normalQuantile } from "../../distribution/index.ts";

export interface EventLimits {
  readonly refuseBelow: number;
  readonly penaliseBelow: number;
  readonly cautionBelow: number;
}

export interface EventsPerParameter {
  readonly perParameter: number;
  readonly verdict: "refuse" | "penalise" | "caution" | "enough";
}

/**
 * Whether there are events enough for the parameters a model spends.
 *   events / parameters against three limits of the caller's
 * Holds: events the smaller of both outcomes for a logistic model; no law, a habit with studies behind and against it.
 * Source: Peduzzi P and others 1996, J Clin Epidemiol 49:1373; Vittinghoff E, McCulloch CE 2007, Am J Epidemiol 165:710;
 * van Smeden M and others 2016, BMC Med Res Methodol 16:163 (all from memory).
 * Example: 24 events, 4 parameters, limits 5, 10, 20: 6 each, penalise.
 */
export function eventsPerParameter(events: number, parameters: number, limits: EventLimits): EventsPerParameter {
  if (!(events >= 0 && parameters > 0)) {
    throw new RangeError(`There are ${events} events for ${parameters} parameters; give at least one parameter.`);
  }
  const perParameter = events / parameters;
  const verdict =
    perParameter < limits.refuseBelow
      ? "refuse"
      : perParameter < limits.penaliseBelow
        ? "penalise"
        : perParameter < limits.cautionBelow
          ? "caution"
          : "enough";
  return { perParameter, verdict };
}

/**
 * Events in all that a comparison of two groups needs to show a hazard ratio.
 *   (z_(1 - a/2) + z_power)^2 / (p (1 - p) (ln ratio)^2), p the share of one group
 * Holds: hazards proportional; ratio above zero and not one, shares between 0 and 1, else RangeError.
 * Source: Schoenfeld DA 1983, Biometrics 39:499.
 * Example: ratio 2, equal groups, level 0.95, power 0.8: 65.35.
 */
export function eventsForPower(asked: {
  readonly ratio: number;
  readonly share: number;
  readonly level: number;
  readonly power: number;
}): number {
  const { ratio, share, level, power } = asked;
  const between = (value: number) => value > 0 && value < 1;
  if (!(ratio > 0 && ratio !== 1 && between(share) && between(level) && between(power))) {
    throw new RangeError(
      `Ratio ${ratio}, share ${share}, level ${level}, power ${power}: give a ratio other than one and shares between 0 and 1.`,
    );
  }
  const z = normalQuantile((1 + level) / 2) + normalQuantile(power);
  return (z * z) / (share * (1 - share) * Math.log(ratio) ** 2);
}

/**
 * People a prediction model needs so that its coefficients shrink by no more than wanted.
 *   n = p / ((S - 1) ln(1 - R2 / S)), p parameters, S shrinkage kept, R2 of Cox and Snell expected
 * Holds: 0 < R2 < S < 1, else RangeError. Source: Riley RD and others 2019, Stat Med 38:1276 (from memory).
 * Example: 8 parameters, S 0.9, R2 0.05: 1399.6.
 */
export function peopleForPrediction(parameters: number, shrinkage: number, rSquared: number): number {
  if (!(parameters > 0 && rSquared > 0 && rSquared < shrinkage && shrinkage < 1)) {
    throw new RangeError(
      `${parameters} parameters, shrinkage ${shrinkage}, R2 ${rSquared}: R2 lies between 0 and the shrinkage, and that below 1.`,
    );
  }
  return parameters / ((shrinkage - 1) * Math.log(1 - rSquared / shrinkage));
}

/**
 * By how much lines that share a patient widen the variance of a rate or a share.
 *   1 + (m (1 + v^2) - 1) r, m lines a patient on average, v their coefficient of variation, r correlation within one
 * Holds: m at least 1, v not below 0, r from 0 to 1, else RangeError; a forecast, where the sandwich by patient measures.
 * Source: Eldridge SM and others 2006, Int J Epidemiol 35:1292 (from memory). Example: 1.4, 0.6, 0.2: 1.1808.
 */
export function designEffect(linesEach: number, variation: number, correlation: number): number {
  if (!(linesEach >= 1 && variation >= 0 && correlation >= 0 && correlation <= 1)) {
    throw new RangeError(
      `${linesEach} lines each, variation ${variation}, correlation ${correlation}: give at least 1, 0 or more, 0 to 1.`,
    );
  }
  return 1 + (linesEach * (1 + variation * variation) - 1) * correlation;
}

/**
 * Largest R2 of Cox and Snell that any model of a yes-or-no outcome can reach.
 *   1 - exp(2 (p ln p + (1 - p) ln(1 - p))), p the share with the outcome
 * Holds: 0 < p < 1, else RangeError. Source: Riley RD and others 2019, Stat Med 38:1276 (from memory).
 * Example: 3 per cent: 0.236227.
 */
export function largestRSquared(share: number): number {
  if (!(share > 0 && share < 1))
    throw new RangeError(`The share with the outcome is ${share}; it must lie between zero and one.`);
  return -Math.expm1(2 * (share * Math.log(share) + (1 - share) * Math.log1p(-share)));
}
