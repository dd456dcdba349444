import { endsAt, type RiskTable } from "../risk/risk-table.ts";
import { type ChiSquare, quadraticForm } from "./quadratic-form.ts";

/**
 * Gray's test that the cumulative incidence of one kind of end is the same in every group.
 *   Z_g = sum (1 - F0(u-))^rho (d_1g - d_1 R_g / R), R_g = n_g (1 - F_g(u-)) / S_g(u-)
 *   F_g, S_g of the group, F0 of the pooled subdistribution; variance by Gray's martingale form with ties
 * Strata are added together. Holds: no delayed entry, and the same groups in every stratum, else RangeError.
 * O(times x groups^3) after the risk table. cmprsk 2.2-11 differs where the events at one time multiplied by the lines
 * at risk pass 2^31: it takes that product in 32 bits.
 * Source: Gray RJ 1988, Ann Stat 16:1141.
 * Example: mgus2 by sex, plasma-cell malignancy: 1.19451 on 1 degree.
 */
export function grayTest(strata: readonly RiskTable[], kind: number, rho = 0): ChiSquare {
  const groups = strata[0]?.groups ?? 1;
  const score = new Float64Array(groups);
  const variance = new Float64Array(groups * groups);
  for (const table of strata) {
    if (table.groups !== groups || table.delayedEntry) {
      throw new RangeError(
        `A stratum has ${table.groups} groups of ${groups}, delayed entry ${table.delayedEntry}; the test needs equal groups and none.`,
      );
    }
    addStratum(table, kind, rho, score, variance);
  }
  return quadraticForm(score, variance);
}

function addStratum(table: RiskTable, kind: number, rho: number, score: Float64Array, variance: Float64Array): void {
  const groups = table.groups;
  const column = () => new Float64Array(groups);
  const incidence = column(); // F_g just before
  const survival = column().fill(1); // S_g just before
  const after = column(); // S_g from now on
  const scaled = column(); // n_g / S_g
  const weight = new Float64Array(groups * groups); // a: what an event in the second group does to the first score
  const carried = new Float64Array(groups * groups); // c: sum of a times the pooled subdistribution hazard
  const cross = new Float64Array(groups * groups);
  const last = column();
  let pooled = 0; // F0 just before
  const at = (i: number, k: number): number => i * groups + k;
  for (let place = 0; place < table.time.length; place += 1) {
    let events = 0;
    let total = 0;
    let subdistribution = 0;
    for (let g = 0; g < groups; g += 1) {
      const n = table.atRisk[at(place, g)] as number;
      scaled[g] = n > 0 ? n / (survival[g] as number) : 0;
      after[g] = n > 0 ? ((survival[g] as number) * (n - endsAt(table, place, g))) / n : (survival[g] as number);
      events += table.ends[at(place, g) * table.kinds + kind - 1] as number;
      total += scaled[g] as number;
      subdistribution += (scaled[g] as number) * (1 - (incidence[g] as number));
    }
    const grown = pooled + events / total;
    const factor = (1 - pooled) ** rho;
    for (let i = 0; i < groups; i += 1) {
      const share = (scaled[i] as number) / total;
      if (share > 0) {
        score[i] =
          (score[i] as number) +
          factor *
            ((table.ends[at(place, i) * table.kinds + kind - 1] as number) -
              (events * (scaled[i] as number) * (1 - (incidence[i] as number))) / subdistribution);
      }
      for (let j = 0; j < groups; j += 1) {
        weight[at(i, j)] = factor * (scaled[i] as number) * ((i === j ? 1 : 0) - (scaled[j] as number) / total);
        carried[at(i, j)] =
          (carried[at(i, j)] as number) + ((weight[at(i, j)] as number) * events) / (total * (1 - pooled));
      }
    }
    for (let k = 0; k < groups; k += 1) {
      const n = table.atRisk[at(place, k)] as number;
      if (n === 0) continue;
      const left = survival[k] as number;
      const rest = after[k] as number;
      // the group's share of the events of interest, as the pooled hazard gives it
      if (events > 0) {
        const reach = rest > 0 ? 1 - (1 - grown) / rest : 1;
        const ties = events > 1 ? 1 - (events - 1) / (total * left - 1) : 1;
        spread(k, 1, reach, (ties * left * events) / (total * n));
      }
      const others = endsAt(table, place, k) - (table.ends[at(place, k) * table.kinds + kind - 1] as number);
      if (others > 0 && rest > 0) {
        const ties = others > 1 ? 1 - (others - 1) / (n - 1) : 1;
        spread(k, 0, -(1 - grown) / rest, (ties * left * left * others) / (n * n));
      }
    }
    for (let g = 0; g < groups; g += 1) {
      const n = table.atRisk[at(place, g)] as number;
      if (n === 0) continue;
      const own = table.ends[at(place, g) * table.kinds + kind - 1] as number;
      incidence[g] = (incidence[g] as number) + ((survival[g] as number) * own) / n;
      survival[g] = after[g] as number;
    }
    pooled = grown;
  }
  for (let i = 0; i < groups; i += 1) {
    for (let j = 0; j < groups; j += 1) {
      let sum = 0;
      for (let k = 0; k < groups; k += 1) {
        const ci = carried[at(i, k)] as number;
        const cj = carried[at(j, k)] as number;
        sum += ci * (cross[at(j, k)] as number) + cj * (cross[at(i, k)] as number) + ci * cj * (last[k] as number);
      }
      variance[at(i, j)] = (variance[at(i, j)] as number) + sum;
    }
  }

  /** Adds (direct a + reach (C - c))^2 times a hazard, split so that the final C can be put in at the end. */
  function spread(k: number, direct: number, reach: number, hazard: number): void {
    last[k] = (last[k] as number) + reach * reach * hazard;
    for (let i = 0; i < groups; i += 1) {
      const mine = direct * (weight[at(i, k)] as number) - reach * (carried[at(i, k)] as number);
      cross[at(i, k)] = (cross[at(i, k)] as number) + mine * reach * hazard;
      for (let j = 0; j < groups; j += 1) {
        const theirs = direct * (weight[at(j, k)] as number) - reach * (carried[at(j, k)] as number);
        variance[at(i, j)] = (variance[at(i, j)] as number) + mine * theirs * hazard;
      }
    }
  }
}
