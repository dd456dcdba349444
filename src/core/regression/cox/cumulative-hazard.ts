import type { Design } from "../fit/covariate.ts";
import type { CoxRows } from "./partial-likelihood.ts";
import { relativeHazards, sweep } from "./sweep.ts";

/** Steps of a baseline, by stratum and then ascending time. */
export interface CumulativeHazard {
  readonly stratum: Float64Array;
  readonly time: Float64Array;
  readonly hazard: Float64Array;
}

/**
 * Baseline cumulative hazard of a row whose covariates are all zero.
 *   H0(t) = sum over event times u <= t of d / sum over the risk set of exp(x b), thinned by Efron's rule at ties
 * S(t | x) = exp(-H0(t) exp(x b)). The exact method takes Breslow's form here.
 * Source: Breslow N 1972, J R Stat Soc B 34:216. Example: Freireich, Efron, weeks to 10, 6-MP as zero: 0.219876.
 */
export function hazardAtZero(rows: CoxRows, place: Float64Array, design: Design): CumulativeHazard {
  const { sets, size, cells, ties } = rows;
  const steps = new Float64Array(sets.places);
  const theta = relativeHazards(cells, size, place, new Float64Array(sets.rows));
  // only the sum of theta is wanted
  sweep(sets, { size: 0, cells, theta }, ties, (p, weight, sums) => {
    steps[p] = (steps[p] as number) + weight / (sums[0] as number);
  });
  let centre = 0;
  for (let j = 0; j < size; j += 1) {
    centre += ((place[j] as number) * (design.centre[j] as number)) / ((design.scale[j] as number) || 1);
  }
  // places run by stratum and falling time; each stratum is turned round
  const order = [...steps.keys()].sort(
    (a, b) =>
      (sets.stratum[a] as number) - (sets.stratum[b] as number) || (sets.time[a] as number) - (sets.time[b] as number),
  );
  const hazard = new Float64Array(order.length);
  let sum = 0;
  for (const [k, p] of order.entries()) {
    if (k === 0 || sets.stratum[p] !== sets.stratum[order[k - 1] as number]) sum = 0;
    sum += (steps[p] as number) * Math.exp(-centre);
    hazard[k] = sum;
  }
  return {
    stratum: Float64Array.from(order, (p) => sets.stratum[p] as number),
    time: Float64Array.from(order, (p) => sets.time[p] as number),
    hazard,
  };
}
