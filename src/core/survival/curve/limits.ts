import { normalQuantile } from "../../distribution/index.ts";

/** The scale on which the estimate is taken as normal. "log-log" stays inside 0 to 1 and does best with few events. */
export type LimitScale = "log-log" | "log" | "plain" | "arcsine" | "logit";

export interface TwoLimits {
  /** Both absent where the formula says nothing: S of one or zero. */
  readonly low: number | undefined;
  readonly high: number | undefined;
}

/** Two-sided normal deviate of a level such as 0.95. RangeError outside 0 to 1. */
export function deviateOf(level: number): number {
  if (!(level > 0 && level < 1)) throw new RangeError(`The level is ${level}; give a share between 0 and 1.`);
  return normalQuantile((1 + level) / 2);
}

const inside = (value: number): number => Math.min(1, Math.max(0, value));

/**
 * Pointwise limits of a survival curve from the variance v of log S.
 *   log-log S^exp(+-z sqrt v / |ln S|); log S exp(+-z sqrt v); plain S +- z S sqrt v;
 *   arcsine and logit by the same delta method; all cut to 0 to 1
 * Holds: 0 < S < 1, else both limits are absent. Level 0 to 1, else RangeError.
 * Source: Kalbfleisch and Prentice 2002, 1.4; Borgan O, Liestol K 1990, Scand J Stat 17:35 (arcsine).
 * Example: S 0.752941, v 0.0163746, 0.95: log-log 0.503200 to 0.889362.
 */
export function survivalLimits(survival: number, logVariance: number, level: number, scale: LimitScale): TwoLimits {
  const z = deviateOf(level);
  if (!(survival > 0 && survival < 1)) return { low: undefined, high: undefined };
  const spread = z * Math.sqrt(logVariance);
  if (scale === "log-log") {
    const power = Math.exp(spread / -Math.log(survival));
    return { low: survival ** power, high: survival ** (1 / power) };
  }
  if (scale === "log") return { low: survival * Math.exp(-spread), high: inside(survival * Math.exp(spread)) };
  if (scale === "plain") return { low: inside(survival * (1 - spread)), high: inside(survival * (1 + spread)) };
  if (scale === "arcsine") {
    const angle = Math.asin(Math.sqrt(survival));
    const step = (spread / 2) * Math.sqrt(survival / (1 - survival));
    return {
      low: Math.sin(Math.max(0, angle - step)) ** 2,
      high: Math.sin(Math.min(Math.PI / 2, angle + step)) ** 2,
    };
  }
  const odds = survival / (1 - survival);
  const factor = Math.exp(spread / (1 - survival));
  return { low: odds / factor / (1 + odds / factor), high: (odds * factor) / (1 + odds * factor) };
}

/**
 * Limits of a cumulative incidence, on the complementary log-log scale of 1 - F, or plain.
 *   1 - (1 - F)^exp(-+ z se / ((1 - F) |ln(1 - F)|))
 * Holds: 0 < F < 1, else both limits are absent. Source: Marubini E, Valsecchi MG 1995 (from memory).
 * Example: F 0.063722, se 0.0067968, 0.95: 0.051665 to 0.078475.
 */
export function incidenceLimits(
  incidence: number,
  standardError: number,
  level: number,
  scale: "log-log" | "plain" = "log-log",
): TwoLimits {
  const z = deviateOf(level);
  if (!(incidence > 0 && incidence < 1)) return { low: undefined, high: undefined };
  if (scale === "plain") {
    return { low: inside(incidence - z * standardError), high: inside(incidence + z * standardError) };
  }
  const rest = survivalLimits(1 - incidence, (standardError / (1 - incidence)) ** 2, level, "log-log");
  return { low: 1 - (rest.high as number), high: 1 - (rest.low as number) };
}
