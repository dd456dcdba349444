import { endsAt, type RiskTable } from "../risk/risk-table.ts";
import { type LimitScale, survivalLimits, type TwoLimits } from "./limits.ts";
import { lastAtOrBefore } from "./step.ts";

/** One group's curve, at the times of the ends counted. */
export interface SurvivalCurve {
  readonly time: Float64Array;
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
  readonly survival: Float64Array;
  /** Sum of d / (n (n - d)): the variance of log S. Infinite from where S is zero. */
  readonly greenwood: Float64Array;
  /** Sum of d / n: cumulative hazard, and for repeated events the mean number so far. */
  readonly hazard: Float64Array;
  /** Sum of d / n^2. */
  readonly hazardVariance: Float64Array;
}

/**
 * Kaplan-Meier curve of one group of a risk table, with Greenwood's variance and Nelson and Aalen's hazard.
 *   S(t) = product over u <= t of (1 - d(u) / n(u)), n counting entry < u <= exit
 * `kind` counts one kind of end as the event and the others as censored; without it every end is the event. With
 * competing ends, 1 - S for one kind overstates its risk: use `cumulativeIncidence`.
 * Holds: any table; RangeError for a group or kind that is not there. O(times).
 * Source: Kaplan EL, Meier P 1958, J Am Stat Assoc 53:457; Greenwood M 1926; Aalen O 1978, Ann Stat 6:701.
 * Example: times 2, 3, 3, 3+, 5+, 7, 7+, 9+: S(2) = 0.875, S(3) = 0.625, S(7) = 0.41667.
 */
export function kaplanMeier(table: RiskTable, group = 0, kind?: number): SurvivalCurve {
  if (!(group >= 0 && group < table.groups) || !(kind === undefined || (kind >= 1 && kind <= table.kinds))) {
    throw new RangeError(
      `Group ${group}, kind ${kind ?? "any"} was asked; the table has groups 0 to ${table.groups - 1} and kinds 1 to ${table.kinds}.`,
    );
  }
  const places: number[] = [];
  const counts: number[] = [];
  for (let place = 0; place < table.time.length; place += 1) {
    const d =
      kind === undefined
        ? endsAt(table, place, group)
        : (table.ends[(place * table.groups + group) * table.kinds + kind - 1] as number);
    if (d === 0) continue;
    places.push(place);
    counts.push(d);
  }
  const column = () => new Float64Array(places.length);
  const curve = {
    time: column(),
    atRisk: column(),
    events: Float64Array.from(counts),
    survival: column(),
    greenwood: column(),
    hazard: column(),
    hazardVariance: column(),
  };
  let survival = 1;
  let greenwood = 0;
  let hazard = 0;
  let variance = 0;
  for (let k = 0; k < places.length; k += 1) {
    const place = places[k] as number;
    const n = table.atRisk[place * table.groups + group] as number;
    const d = counts[k] as number;
    survival *= (n - d) / n;
    greenwood += d / (n * (n - d));
    hazard += d / n;
    variance += d / (n * n);
    curve.time[k] = table.time[place] as number;
    curve.atRisk[k] = n;
    curve.survival[k] = survival;
    curve.greenwood[k] = greenwood;
    curve.hazard[k] = hazard;
    curve.hazardVariance[k] = variance;
  }
  return curve;
}

export interface SurvivalAt extends TwoLimits {
  readonly survival: number;
  /** Absent where S is zero: Greenwood's formula says nothing there. */
  readonly standardError: number | undefined;
}

/**
 * The curve at one moment, with its limits. Example: Freireich 6-MP at 10 weeks: 0.7529 (0.5032 to 0.8894).
 *   SE = S sqrt(sum d / (n (n - d))); limits by `survivalLimits`
 * Holds: any moment; events at the moment are included. Source: Greenwood 1926; Kalbfleisch and Prentice 2002, 1.4.
 */
export function survivalAt(
  curve: SurvivalCurve,
  moment: number,
  level: number,
  scale: LimitScale = "log-log",
): SurvivalAt {
  const k = lastAtOrBefore(curve.time, moment);
  const survival = k < 0 ? 1 : (curve.survival[k] as number);
  const logVariance = k < 0 ? 0 : (curve.greenwood[k] as number);
  return {
    survival,
    standardError: survival > 0 ? survival * Math.sqrt(logVariance) : undefined,
    ...survivalLimits(survival, logVariance, level, scale),
  };
}

export interface QuantileTime {
  readonly time: number | undefined;
  readonly low: number | undefined;
  readonly high: number | undefined;
}

/**
 * When a share has ended: 0.5 gives the median. Undefined where the curve does not go so low.
 *   smallest t with S(t) <= 1 - share; where S stays exactly there, the middle of that stretch
 * Limits come from the pointwise limits of the curve in the same way.
 * Source: Brookmeyer R, Crowley J 1982, Biometrics 38:29; the middle of a flat stretch as in R survival.
 * Example: Freireich, 6-MP: 23 weeks (log scale: 16 to not reached).
 */
export function quantileTime(
  curve: SurvivalCurve,
  share: number,
  level: number,
  scale: LimitScale = "log-log",
): QuantileTime {
  const places = curve.time.length;
  const low = new Float64Array(places);
  const high = new Float64Array(places);
  for (let k = 0; k < places; k += 1) {
    const limits = survivalLimits(curve.survival[k] as number, curve.greenwood[k] as number, level, scale);
    low[k] = limits.low ?? Number.NaN;
    high[k] = limits.high ?? Number.NaN;
  }
  return {
    time: firstAtOrBelow(curve.time, curve.survival, 1 - share),
    low: firstAtOrBelow(curve.time, low, 1 - share),
    high: firstAtOrBelow(curve.time, high, 1 - share),
  };
}

/** A product of quotients meets a round share only to within rounding. */
const SAME_SHARE = 1e-9;

function firstAtOrBelow(time: Float64Array, value: Float64Array, share: number): number | undefined {
  for (let k = 0; k < time.length; k += 1) {
    const here = value[k] as number;
    if (!(here <= share + SAME_SHARE)) continue;
    const flat = Math.abs(here - share) <= SAME_SHARE;
    const next = time.findIndex((_, later) => later > k && (value[later] as number) < share - SAME_SHARE);
    return flat && next > 0 ? ((time[k] as number) + (time[next] as number)) / 2 : time[k];
  }
  return undefined;
}
