import { endsAt, type RiskTable } from "../risk/risk-table.ts";
import { incidenceLimits, type TwoLimits } from "./limits.ts";
import { lastAtOrBefore } from "./step.ts";

export interface IncidenceCurve {
  readonly kinds: number;
  readonly time: Float64Array;
  readonly atRisk: Float64Array;
  /** Nothing has happened yet. */
  readonly survival: Float64Array;
  /** At [place * kinds + kind - 1]; the incidences and the survival add to one. */
  readonly incidence: Float64Array;
  /** Of the incidence, at the same places. */
  readonly variance: Float64Array;
}

/**
 * Aalen-Johansen cumulative incidence of every kind of end in one group, with its variance, in one sweep.
 *   F_k(t) = sum over u <= t of S(u-) d_k(u) / n(u), S the Kaplan-Meier curve of all ends together
 *   var F_k(t) = sum (F_k(t) - F_k(u))^2 d / (n (n - d)) + sum S(u-)^2 d_k (n - d_k) / n^3
 *              - 2 sum (F_k(t) - F_k(u)) S(u-) d_k / n^2
 * The three sums are carried forward by what F_k grows, with positive terms in each, so a time costs the same however
 * many came before. At n = d the first term is left out: F_k grows no more.
 * Holds: any table; RangeError for a group that is not there. O(times x kinds).
 * Source: Aalen OO, Johansen S 1978, Scand J Stat 5:141; Marubini and Valsecchi 1995; Betensky and Schoenfeld 2001.
 * Example: times 1, 2+, 3, 3, 4, 5, 5+, 6, 8, 9+ with ends a, +, b, a, c, a, +, b, a, +: F_a(3) = 0.2125 (SE 0.13403).
 */
export function cumulativeIncidence(table: RiskTable, group = 0): IncidenceCurve {
  const { kinds, groups } = table;
  if (!(group >= 0 && group < groups)) {
    throw new RangeError(`Group ${group} was asked; the table has groups 0 to ${groups - 1}.`);
  }
  const places: number[] = [];
  for (let place = 0; place < table.time.length; place += 1) if (endsAt(table, place, group) > 0) places.push(place);
  const time = new Float64Array(places.length);
  const atRisk = new Float64Array(places.length);
  const survival = new Float64Array(places.length);
  const incidence = new Float64Array(places.length * kinds);
  const variance = new Float64Array(places.length * kinds);
  const reached = new Float64Array(kinds); // F
  const square = new Float64Array(kinds); // sum (F(t) - F(u))^2 a(u)
  const first = new Float64Array(kinds); // sum (F(t) - F(u)) a(u)
  const own = new Float64Array(kinds); // sum S^2 d_k (n - d_k) / n^3
  const cross = new Float64Array(kinds); // sum (F(t) - F(u)) c(u)
  const weight = new Float64Array(kinds); // sum c(u), c = S d_k / n^2
  let left = 1; // S just before
  let all = 0; // sum a(u), a = d / (n (n - d))
  for (let k = 0; k < places.length; k += 1) {
    const place = places[k] as number;
    const n = table.atRisk[place * groups + group] as number;
    const d = endsAt(table, place, group);
    for (let kind = 0; kind < kinds; kind += 1) {
      const ends = table.ends[(place * groups + group) * kinds + kind] as number;
      const growth = (left * ends) / n;
      square[kind] = (square[kind] as number) + growth * (2 * (first[kind] as number) + growth * all);
      first[kind] = (first[kind] as number) + growth * all;
      cross[kind] = (cross[kind] as number) + growth * (weight[kind] as number);
      own[kind] = (own[kind] as number) + (left * left * ends * (n - ends)) / (n * n * n);
      weight[kind] = (weight[kind] as number) + (left * ends) / (n * n);
      reached[kind] = (reached[kind] as number) + growth;
      incidence[k * kinds + kind] = reached[kind] as number;
      variance[k * kinds + kind] = Math.max(
        0,
        (square[kind] as number) + (own[kind] as number) - 2 * (cross[kind] as number),
      );
    }
    if (n > d) all += d / (n * (n - d));
    left *= (n - d) / n;
    time[k] = table.time[place] as number;
    atRisk[k] = n;
    survival[k] = left;
  }
  return { kinds, time, atRisk, survival, incidence, variance };
}

export interface IncidenceAt extends TwoLimits {
  readonly incidence: number;
  readonly standardError: number;
}

/**
 * The incidence of one kind at one moment, with its limits on the complementary log-log scale.
 * Holds: events at the moment are included; RangeError for a kind that is not there. Source: as `cumulativeIncidence`.
 * Example: mgus2, plasma-cell malignancy at 120 months: 0.0637 (0.0517 to 0.0785).
 */
export function incidenceAt(curve: IncidenceCurve, kind: number, moment: number, level: number): IncidenceAt {
  if (!(kind >= 1 && kind <= curve.kinds)) {
    throw new RangeError(`Kind ${kind} was asked; the curve has kinds 1 to ${curve.kinds}.`);
  }
  const k = lastAtOrBefore(curve.time, moment);
  const incidence = k < 0 ? 0 : (curve.incidence[k * curve.kinds + kind - 1] as number);
  const standardError = k < 0 ? 0 : Math.sqrt(curve.variance[k * curve.kinds + kind - 1] as number);
  return { incidence, standardError, ...incidenceLimits(incidence, standardError, level) };
}
