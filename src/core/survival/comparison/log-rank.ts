import { endsAt, type RiskTable } from "../risk/risk-table.ts";
import { type ChiSquare, quadraticForm } from "./quadratic-form.ts";

/** How much a difference at one time counts. `before` is the pooled Kaplan-Meier curve just before it. */
export type LogRankWeight =
  | { readonly kind: "log-rank" }
  | { readonly kind: "Gehan" }
  | { readonly kind: "Tarone-Ware" }
  | { readonly kind: "Fleming-Harrington"; readonly early: number; readonly late: number };

/** Peto-Peto in the form of R survival, rho = 1. */
export const PETO_PETO: LogRankWeight = { kind: "Fleming-Harrington", early: 1, late: 0 };

export interface LogRankTest extends ChiSquare {
  /** Weighted sums over the strata, by group. */
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  /** Of observed less expected, groups x groups. */
  readonly variance: Float64Array;
}

function weightAt(weight: LogRankWeight, atRisk: number, before: number): number {
  if (weight.kind === "log-rank") return 1;
  if (weight.kind === "Gehan") return atRisk;
  if (weight.kind === "Tarone-Ware") return Math.sqrt(atRisk);
  return before ** weight.early * (1 - before) ** weight.late;
}

/**
 * The log-rank test and its weighted family, over one or more strata, by their risk tables.
 *   Z_g = sum w (d_g - d n_g / n), V_gh = sum w^2 d (n - d) / (n - 1) (n_g / n) ([g = h] - n_h / n)
 *   Gehan w = n, Tarone-Ware w = sqrt n, Fleming-Harrington w = S(u-)^early (1 - S(u-))^late, each within its stratum
 * One `kind` of end is the event and the others are censored; without it every end is the event.
 * Holds: delayed entry allowed; every stratum has the same groups, else RangeError. The p value is the upper tail of
 * chi-square. Curves that cross can hide from one test: look at them.
 * Source: Mantel N 1966; Peto R, Peto J 1972; Tarone RE, Ware J 1977; Fleming and Harrington 1991; Klein and
 * Moeschberger 2003, 7.3.
 * Example: Freireich's trial: 16.79 on 1 degree.
 */
export function logRank(
  strata: readonly RiskTable[],
  weight: LogRankWeight = { kind: "log-rank" },
  kind?: number,
): LogRankTest {
  const groups = strata[0]?.groups ?? 1;
  const observed = new Float64Array(groups);
  const expected = new Float64Array(groups);
  const variance = new Float64Array(groups * groups);
  for (const table of strata) {
    if (table.groups !== groups) {
      throw new RangeError(`A stratum has ${table.groups} groups and another ${groups}; use the same codes in each.`);
    }
    let before = 1;
    const own = new Float64Array(groups);
    for (let place = 0; place < table.time.length; place += 1) {
      let n = 0;
      let d = 0;
      for (let g = 0; g < groups; g += 1) {
        n += table.atRisk[place * groups + g] as number;
        own[g] =
          kind === undefined
            ? endsAt(table, place, g)
            : (table.ends[(place * groups + g) * table.kinds + kind - 1] ?? 0);
        d += own[g] as number;
      }
      if (d === 0) continue;
      const w = weightAt(weight, n, before);
      const spread = n > 1 ? (w * w * d * (n - d)) / (n - 1) : 0;
      for (let g = 0; g < groups; g += 1) {
        const share = (table.atRisk[place * groups + g] as number) / n;
        observed[g] = (observed[g] as number) + w * (own[g] as number);
        expected[g] = (expected[g] as number) + w * d * share;
        for (let h = 0; h < groups; h += 1) {
          const other = (table.atRisk[place * groups + h] as number) / n;
          variance[g * groups + h] =
            (variance[g * groups + h] as number) + spread * share * ((g === h ? 1 : 0) - other);
        }
      }
      before *= (n - d) / n;
    }
  }
  const score = observed.map((o, g) => o - (expected[g] as number));
  return { observed, expected, variance, ...quadraticForm(score, variance) };
}
