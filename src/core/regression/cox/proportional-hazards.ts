import { kaplanMeier, riskTable } from "../../survival/index.ts";
import { type Design, unscale, unscaleVariance } from "../fit/covariate.ts";
import { cholesky, sandwich, solve } from "../linear/cholesky.ts";
import { type CoxRows, momentsInto, momentsOf } from "./partial-likelihood.ts";
import { relativeHazards, sweep } from "./sweep.ts";

/** What time is turned into before it is held against the residuals. */
export type TimeScale = "kaplan-meier" | "time" | "log time";

export interface TermTest {
  readonly term: readonly string[];
  readonly statistic: number;
  readonly degreesOfFreedom: number;
}

export interface ProportionalHazards {
  readonly terms: readonly TermTest[];
  readonly all: TermTest;
  /** For the plot: time of each event, and b plus its scaled Schoenfeld residual, row after row. */
  readonly eventTime: Float64Array;
  readonly scaledResiduals: Float64Array;
}

/**
 * Test that hazards are proportional: the score test of adding x g(t) to the model, for each term and for all.
 *   U_g = sum over events of g (x - mean), I_g = its variance given the fitted coefficients; U' I_g^-1 U
 *   scaled residuals b + D V (x - mean), D events: their slope against g shows how b moves with time
 * g is one less the Kaplan-Meier curve of all strata just before the event, or time, or its log, about its mean.
 * Holds: Efron or Breslow ties. With some twenty events or more it has sense; plot the residuals in any case.
 * Source: Grambsch PM, Therneau TM 1994, Biometrika 81:515; the score form as in R survival 3.
 * Example: veteran, eight columns, Karnofsky score: 12.9352 on 1 degree.
 */
export function proportionalHazards(
  rows: CoxRows,
  place: Float64Array,
  within: Float64Array,
  asked: { readonly design: Design; readonly scale: TimeScale; readonly terms: readonly (readonly string[])[] },
): ProportionalHazards {
  const { sets, size, cells, ties } = rows;
  const weight = timeWeights(rows, asked.scale);
  const theta = relativeHazards(cells, size, place);
  const moments = momentsOf(size);
  const means = new Float64Array(sets.places * size);
  const score = new Float64Array(size);
  const cross = new Float64Array(size * size);
  const square = new Float64Array(size * size);
  sweep(sets, { size, cells, theta }, ties, (p, times, sums) => {
    momentsInto(sums, size, moments);
    const g = weight[p] as number;
    const count = (sets.deathsEnd[p] as number) - (sets.deaths[p] as number);
    for (let j = 0; j < size; j += 1) {
      const at = p * size + j;
      means[at] = (means[at] as number) + (times * (moments.mean[j] as number)) / count;
    }
    for (let at = 0; at < square.length; at += 1) {
      const spread = times * (moments.spread[at] as number);
      cross[at] = (cross[at] as number) + g * spread;
      square[at] = (square[at] as number) + g * g * spread;
    }
  });
  const events = sets.event.reduce((sum, event) => sum + event, 0);
  const coefficient = unscale(asked.design, place);
  const variance = unscaleVariance(asked.design, within);
  const eventTime: number[] = [];
  const scaledResiduals: number[] = [];
  for (let p = 0; p < sets.places; p += 1) {
    for (let row = sets.deaths[p] as number; row < (sets.deathsEnd[p] as number); row += 1) {
      const away = Float64Array.from(
        { length: size },
        (_, j) => (cells[row * size + j] as number) - (means[p * size + j] as number),
      );
      for (let j = 0; j < size; j += 1) score[j] = (score[j] as number) + (weight[p] as number) * (away[j] as number);
      eventTime.push(sets.time[p] as number);
      for (let j = 0; j < size; j += 1) {
        let sum = 0;
        for (let k = 0; k < size; k += 1) {
          sum += (variance[j * size + k] as number) * (away[k] as number) * ((asked.design.scale[k] as number) || 1);
        }
        scaledResiduals.push((coefficient[j] as number) + events * sum);
      }
    }
  }
  // what g x tells beyond the coefficients already fitted
  const told = sandwich(cross, within, size);
  const spread = square.map((value, at) => value - (told[at] as number));
  const testOf = (term: readonly string[]): TermTest => {
    const columns = term.map((name) => asked.design.names.indexOf(name));
    if (columns.some((j) => j < 0)) throw new RangeError(`The term ${term.join(", ")} has a name that was not fitted.`);
    const part = Float64Array.from(columns.flatMap((j) => columns.map((k) => spread[j * size + k] as number)));
    const own = columns.map((j) => score[j] as number);
    const solved = cholesky(part, columns.length);
    const statistic =
      "dependent" in solved
        ? Number.NaN
        : solve(solved, own).reduce((sum, value, j) => sum + value * (own[j] as number), 0);
    return { term, statistic, degreesOfFreedom: columns.length };
  };
  return {
    terms: asked.terms.map(testOf),
    all: testOf(asked.design.names),
    eventTime: Float64Array.from(eventTime),
    scaledResiduals: Float64Array.from(scaledResiduals),
  };
}

function timeWeights({ sets }: CoxRows, scale: TimeScale): Float64Array {
  const raw = new Float64Array(sets.places);
  if (scale === "kaplan-meier") {
    const entry = sets.entry === undefined ? {} : { entry: sets.entry };
    const curve = kaplanMeier(riskTable({ exit: sets.exit, end: sets.event, ...entry }));
    const before = new Map(
      Array.from(curve.time, (time, k) => [time, k === 0 ? 0 : 1 - (curve.survival[k - 1] as number)]),
    );
    for (let p = 0; p < sets.places; p += 1) raw[p] = before.get(sets.time[p] as number) as number;
  } else {
    for (let p = 0; p < sets.places; p += 1) {
      raw[p] = scale === "time" ? (sets.time[p] as number) : Math.log(sets.time[p] as number);
    }
  }
  let sum = 0;
  let count = 0;
  for (let p = 0; p < sets.places; p += 1) {
    const tied = (sets.deathsEnd[p] as number) - (sets.deaths[p] as number);
    sum += tied * (raw[p] as number);
    count += tied;
  }
  return raw.map((value) => value - sum / count);
}
