import { type Coefficient, coefficientsOf, type Unfitted } from "../fit/answer.ts";
import { type Design, designOf, unscale, unscaleVariance } from "../fit/covariate.ts";
import { maximise, type Objective, type Point } from "../fit/newton.ts";
import { rootBetween } from "../fit/root.ts";
import { cholesky, inverse } from "../linear/cholesky.ts";
import { coxRegression, type CoxFit, type CoxInput } from "./cox.ts";
import { type CoxRows, partialLikelihood } from "./partial-likelihood.ts";
import { type RiskSets, riskSets } from "./risk-sets.ts";

export interface FrailtyInput extends Omit<CoxInput, "entry" | "cluster"> {
  /** Who the rows belong to: the patient, whose lines share one frailty. */
  readonly cluster: ArrayLike<number>;
}

export interface FrailtyFit {
  readonly kind: "fitted";
  /** Errors with the variance of the frailty taken as known. */
  readonly coefficients: readonly Coefficient[];
  readonly variance: Float64Array;
  /** Variance of the frailties about their mean of one; zero where the clusters differ no more than by chance. */
  readonly frailtyVariance: number;
  /** Of each cluster, in the order it is first met: what multiplies the hazard of its rows. */
  readonly frailties: Float64Array;
  /** Integrated over the frailties. */
  readonly logLikelihood: number;
  /** Twice the gain over no frailty; half of chi-square on 1 degree and half nothing, as a variance is not below zero. */
  readonly statistic: number;
  readonly events: number;
  readonly clusters: number;
}

interface Shared {
  readonly rows: CoxRows;
  /** Cluster of every row in the layout. */
  readonly of: Uint32Array;
  /** Events of every cluster. */
  readonly events: Float64Array;
}

/** What one cluster more or less gives: a variance below this is none. */
const NO_VARIANCE = 1e-4;
const MOST_VARIANCE = 64;
/** Step in standard deviations of a covariate for the curvature of the profile. */
const STEP = 1e-3;

/**
 * Cox regression in which the rows of a cluster share a frailty that multiplies their hazard.
 *   hazard = z_j h0(t) exp(x b), z_j gamma with mean 1 and variance v = 1 / n
 *   b, z at given v: maximum of l(b, log z) + n sum (log z - z), where z_j = (n + d_j) / (n + expected_j / z_j)
 *   v: root of the slope of that plus sum of n - (n + d) log(n + d) + n log n + log Gamma(n + d) / Gamma(n)
 * d_j are the events of the cluster. A clear zero is told before the search. Use it where patients differ in ways that
 * were not measured; its ratios are for one patient, and so further from one than those of `coxRegression`.
 * Holds: no delayed entry, since those still at risk late are no longer a fair draw; Efron's ties or Breslow's.
 * RangeError for rows that cannot be used; no events, collinear columns and separation come back by name.
 * Source: Nielsen GG and others 1992, Scand J Stat 19:25; Therneau TM, Grambsch PM 2000, 9.6; Klein JP 1992.
 * Example: dialysis catheters, two a patient, age + sex: 0.005253, -1.587489, variance 0.40780.
 */
export function sharedFrailty(input: FrailtyInput, ties: "efron" | "breslow" = "efron"): FrailtyFit | Unfitted {
  if ("entry" in input && input.entry !== undefined) {
    throw new RangeError("Rows that enter late cannot share a frailty; leave them out or fit without it.");
  }
  const plain = coxRegression(input, ties);
  if (plain.kind !== "fitted") return plain;
  const sets = riskSets(input);
  const design = designOf(input.covariates, sets.rows, sets.source);
  const shared = sharedRows(sets, design, input.cluster, ties);
  let last: Pick<Settled, "place" | "log"> = {
    place: Float64Array.from(plain.coefficients, ({ value }, j) => value * ((design.scale[j] as number) || 1)),
    log: new Float64Array(shared.events.length),
  };
  const at = (v: number) => {
    const found = fitAt(shared, 1 / v, last);
    if (found !== undefined) last = found;
    return found;
  };
  const slopeAt = (v: number): number => {
    const found = at(v);
    return found === undefined ? Number.NaN : slopeOf(shared.events, found.log, 1 / v);
  };
  // the likelihood rises with the variance while its slope against n falls
  let low = NO_VARIANCE;
  const first = slopeAt(low);
  if (Number.isNaN(first)) return { kind: "not settled", steps: 0 };
  if (first >= 0) return withoutFrailty(plain, shared.events.length);
  let high = 2 * low;
  while (slopeAt(high) < 0) {
    low = high;
    high *= 2;
    if (high > MOST_VARIANCE) return { kind: "not settled", steps: 0 };
  }
  const v = rootBetween(slopeAt, low, high);
  const top = at(v);
  if (top === undefined) return { kind: "not settled", steps: 0 };
  const factor = cholesky(profileCurvature(shared, 1 / v, top), design.size);
  if ("dependent" in factor) return { kind: "collinear", covariates: [design.names[factor.dependent] as string] };
  const variance = unscaleVariance(design, inverse(factor));
  const logLikelihood = top.value + integrated(shared.events, 1 / v);
  return {
    kind: "fitted",
    coefficients: coefficientsOf(design.names, unscale(design, top.place), variance),
    variance,
    frailtyVariance: v,
    frailties: top.log.map(Math.exp),
    logLikelihood,
    statistic: Math.max(0, 2 * (logLikelihood - plain.logLikelihood)),
    events: plain.events,
    clusters: shared.events.length,
  };
}

function withoutFrailty(plain: CoxFit, clusters: number): FrailtyFit {
  return {
    kind: "fitted",
    coefficients: plain.coefficients,
    variance: plain.variance,
    frailtyVariance: 0,
    frailties: new Float64Array(clusters).fill(1),
    logLikelihood: plain.logLikelihood,
    statistic: 0,
    events: plain.events,
    clusters,
  };
}

/** The rows with one more column for the log frailty, whose coefficient stays one. */
function sharedRows(sets: RiskSets, design: Design, cluster: ArrayLike<number>, ties: "efron" | "breslow"): Shared {
  if (cluster.length !== sets.rows) {
    throw new RangeError(`There are ${sets.rows} exits and ${cluster.length} clusters; give one for every row.`);
  }
  const codes = new Map<number, number>();
  for (let i = 0; i < sets.rows; i += 1) {
    const code = cluster[i] as number;
    if (!codes.has(code)) codes.set(code, codes.size);
  }
  const of = Uint32Array.from(sets.source, (row) => codes.get(cluster[row] as number) as number);
  const events = new Float64Array(codes.size);
  const size = design.size + 1;
  const cells = new Float64Array(sets.rows * size);
  for (let i = 0; i < sets.rows; i += 1) {
    events[of[i] as number] = (events[of[i] as number] as number) + (sets.event[i] as number);
    cells.set(design.cells.subarray(i * design.size, (i + 1) * design.size), i * size);
  }
  const room = { theta: new Float64Array(sets.rows), hazard: new Float64Array(sets.rows) };
  return { rows: { sets, size, cells, ties, room }, of, events };
}

interface Settled {
  readonly place: Float64Array;
  readonly log: Float64Array;
  /** Of the penalised partial likelihood. */
  readonly value: number;
}

function fitAt(shared: Shared, n: number, from: Pick<Settled, "place" | "log">): Settled | undefined {
  let { log } = from;
  // the place hardly moves from one variance to the next, so one curvature serves all its steps
  let bend: Float64Array | undefined;
  const objective: Objective = (place) => {
    const found = profileAt(shared, n, place, log);
    if (found === undefined) return undefined;
    log = found.log;
    bend ??= curvature(shared, n, place, found);
    return { ...found.point, information: bend };
  };
  if (from.place.length === 0) {
    const found = profileAt(shared, n, from.place, log);
    return found && { place: from.place, log: found.log, value: found.point.value };
  }
  const top = maximise(objective, { start: from.place, penalised: true });
  return top.kind === "settled" ? { place: top.place, log, value: top.point.value } : undefined;
}

interface Profiled {
  readonly log: Float64Array;
  readonly point: Point;
}

/**
 * The frailties that belong to given coefficients, by turns of z = (n + d) / (n + expected / z). Their mean is one at
 * the maximum, and held there, which leaves only what the clusters differ by to be found.
 */
function profileAt(shared: Shared, n: number, place: Float64Array, from: Float64Array): Profiled | undefined {
  const { rows, of, events } = shared;
  const { size, cells, sets, room } = rows;
  const whole = new Float64Array(size);
  whole.set(place);
  whole[size - 1] = 1;
  let log = Float64Array.from(from);
  const expected = new Float64Array(events.length);
  for (let turn = 0; turn < 1000; turn += 1) {
    for (let i = 0; i < sets.rows; i += 1) cells[i * size + size - 1] = log[of[i] as number] as number;
    const point = partialLikelihood(rows, whole);
    if (point === undefined) return undefined;
    expected.fill(0);
    for (let i = 0; i < sets.rows; i += 1) {
      expected[of[i] as number] = (expected[of[i] as number] as number) + (room.hazard[i] as number);
    }
    const next = log.map((at, j) =>
      Math.log((n + (events[j] as number)) / (n + (expected[j] as number) * Math.exp(-at))),
    );
    const shift = Math.log(next.reduce((sum, value) => sum + Math.exp(value), 0) / next.length);
    let moved = 0;
    for (let j = 0; j < next.length; j += 1) {
      next[j] = (next[j] as number) - shift;
      moved = Math.max(moved, Math.abs((next[j] as number) - (log[j] as number)));
    }
    if (moved <= 1e-12) {
      const penalty = n * log.reduce((sum, value) => sum + value - Math.exp(value), 0);
      const kept = size - 1;
      const information = new Float64Array(kept * kept);
      for (let j = 0; j < kept; j += 1) {
        for (let k = 0; k < kept; k += 1) information[j * kept + k] = point.information[j * size + k] as number;
      }
      return { log, point: { value: point.value + penalty, score: point.score.slice(0, kept), information } };
    }
    log = next;
  }
  return undefined;
}

/** Less the second derivatives of the profile, by central differences of its score: the frailties move with b. */
function curvature(shared: Shared, n: number, place: Float64Array, { log, point }: Profiled): Float64Array {
  const size = place.length;
  const table = new Float64Array(size * size);
  for (let j = 0; j < size; j += 1) {
    const score = [1, -1].map((side) => {
      const moved = Float64Array.from(place);
      moved[j] = (moved[j] as number) + side * STEP;
      return profileAt(shared, n, moved, log)?.point.score;
    });
    const [up, down] = score;
    if (up === undefined || down === undefined) return point.information;
    for (let k = 0; k < size; k += 1) table[j * size + k] = ((down[k] as number) - (up[k] as number)) / (2 * STEP);
  }
  for (let j = 0; j < size; j += 1) {
    for (let k = 0; k < j; k += 1) {
      const mean = ((table[j * size + k] as number) + (table[k * size + j] as number)) / 2;
      table[j * size + k] = mean;
      table[k * size + j] = mean;
    }
  }
  return table;
}

function profileCurvature(shared: Shared, n: number, top: Settled): Float64Array {
  const found = profileAt(shared, n, top.place, top.log);
  return found === undefined ? new Float64Array(top.place.length ** 2) : curvature(shared, n, top.place, found);
}

/** What integrating the frailties adds to the penalised likelihood. */
function integrated(events: Float64Array, n: number): number {
  let sum = 0;
  for (const d of events) {
    sum += n + d - (n + d) * Math.log(n + d) + n * Math.log(n);
    for (let i = 0; i < d; i += 1) sum += Math.log(n + i);
  }
  return sum;
}

/** Slope of the integrated likelihood against n, the frailties at their maximum: below zero, more variance is better. */
function slopeOf(events: Float64Array, log: Float64Array, n: number): number {
  let sum = 0;
  for (const [j, d] of events.entries()) {
    const value = log[j] as number;
    sum += value - Math.exp(value) + 1 - Math.log1p(d / n);
    for (let i = 0; i < d; i += 1) sum += 1 / (n + i);
  }
  return sum;
}
