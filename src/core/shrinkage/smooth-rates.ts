import { normalQuantile } from "../distribution/index.ts";

/** Events and time at risk of cells in a row, the neighbours beside each other. */
export interface CellCounts {
  readonly count: ArrayLike<number>;
  readonly exposure: ArrayLike<number>;
}

export interface SmoothRate {
  /** Per unit of exposure. */
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  /** Of the log rate. */
  readonly standardError: number;
}

export interface SmoothRates {
  readonly cells: readonly SmoothRate[];
  /** Weight of the penalty; the larger, the flatter. At its ceiling one rate fits all cells. */
  readonly smoothing: number;
  readonly flat: boolean;
  /** Laplace's approximation to the log marginal likelihood, up to a constant. */
  readonly logMarginal: number;
}

const [LEAST, MOST, STEP] = [-2, 6, 0.125];
const HALVINGS = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Rates of cells in a row, each drawn towards its neighbours: a penalised Poisson fit whose prior is a random walk.
 *   maximise sum(y h - T e^h) - (s / 2) sum (h_i+1 - h_i)^2 over log rates h; variance (W + s K)^-1, W = T e^h
 *   s at the greatest of l_p + (m - 1) / 2 log s - 1/2 log |W + s K|, between 10^-2 and 10^6
 * Cells without exposure take what their neighbours have, with wider limits. Limits hold s as known: a little narrow.
 * Units: per unit of exposure. Holds: two cells or more, whole counts, one event or more, exposure where there are events,
 * 0 < level < 1, else RangeError. Source: Rue H, Held L 2005, Gaussian Markov Random Fields, 3.3 (the walk); Wood SN 2011,
 * J R Stat Soc B 73:3 (the choice of s; both from memory). Example: reference/independent/shrinkage.
 */
export function smoothRates(cells: CellCounts, level: number): SmoothRates {
  const y = Float64Array.from(cells.count);
  const t = Float64Array.from(cells.exposure);
  check(y, t, level);
  const at = (log10: number) => fit(y, t, 10 ** log10);
  let best = { log10: MOST, found: at(MOST) };
  for (let log10 = LEAST; log10 < MOST; log10 += STEP) {
    const found = at(log10);
    if (found.logMarginal > best.found.logMarginal) best = { log10, found };
  }
  const flat = best.log10 === MOST;
  if (!flat) {
    let [low, high] = [best.log10 - STEP, best.log10 + STEP];
    for (let turn = 0; turn < HALVINGS; turn += 1) {
      const [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
      if (at(left).logMarginal > at(right).logMarginal) high = right;
      else low = left;
    }
    const log10 = (low + high) / 2;
    best = { log10, found: at(log10) };
  }
  const z = normalQuantile(1 - (1 - level) / 2);
  const { place, variance, logMarginal } = best.found;
  return {
    cells: Array.from(place, (h, i) => {
      const standardError = Math.sqrt(variance[i] as number);
      return {
        rate: Math.exp(h),
        lower: Math.exp(h - z * standardError),
        upper: Math.exp(h + z * standardError),
        standardError,
      };
    }),
    smoothing: 10 ** best.log10,
    flat,
    logMarginal,
  };
}

function check(y: Float64Array, t: Float64Array, level: number): void {
  const events = y.reduce((a, b) => a + b, 0);
  if (y.length < 2 || t.length !== y.length || !(events >= 1))
    throw new RangeError(`There are ${y.length} cells with ${events} events; smoothing needs two cells and an event.`);
  for (const [i, count] of y.entries())
    if (!(Number.isInteger(count) && count >= 0 && (t[i] as number) >= 0 && (count === 0 || (t[i] as number) > 0)))
      throw new RangeError(`Cell ${i + 1} holds ${count} events in ${t[i]}; counts are whole, over time above zero.`);
  if (!(level > 0 && level < 1)) throw new RangeError(`The level is ${level}; it must lie between zero and one.`);
}

interface Fit {
  readonly place: Float64Array;
  readonly variance: Float64Array;
  readonly logMarginal: number;
}

/** Newton's steps on a concave sum, halved while they do not rise. */
function fit(y: Float64Array, t: Float64Array, s: number): Fit {
  const total = y.reduce((a, b) => a + b, 0);
  const time = t.reduce((a, b) => a + b, 0);
  let place = new Float64Array(y.length).fill(Math.log(total / time));
  let value = penalised(y, t, place, s);
  for (let turn = 0; turn < 200; turn += 1) {
    const w = place.map((h, i) => (t[i] as number) * Math.exp(h));
    const pull = place.map((_, i) => s * roughness(place, i));
    const score = y.map((count, i) => count - (w[i] as number) - (pull[i] as number));
    const step = solve(factor(w, s), s, score);
    let size = 1;
    let next = place.map((h, i) => h + (step[i] as number));
    let reached = penalised(y, t, next, s);
    for (; !(reached >= value) && size > 1e-12; size /= 2) {
      next = place.map((h, i) => h + size * (step[i] as number));
      reached = penalised(y, t, next, s);
    }
    const moved = next.reduce((most, h, i) => Math.max(most, Math.abs(h - (place[i] as number))), 0);
    place = next;
    value = reached;
    if (moved < 1e-12) break;
  }
  const w = place.map((h, i) => (t[i] as number) * Math.exp(h));
  const pivots = factor(w, s);
  const logDeterminant = pivots.reduce((sum, pivot) => sum + Math.log(pivot), 0);
  return {
    place,
    variance: inverseDiagonal(w, s, pivots),
    logMarginal: value + ((y.length - 1) / 2) * Math.log(s) - logDeterminant / 2,
  };
}

function penalised(y: Float64Array, t: Float64Array, place: Float64Array, s: number): number {
  return place.reduce((sum, h, i) => {
    const jump = i === 0 ? 0 : h - (place[i - 1] as number);
    return sum + (y[i] as number) * h - (t[i] as number) * Math.exp(h) - (s / 2) * jump * jump;
  }, 0);
}

/** Row i of K h: how far a cell stands from its neighbours. */
const roughness = (place: Float64Array, i: number): number =>
  (i > 0 ? (place[i] as number) - (place[i - 1] as number) : 0) +
  (i < place.length - 1 ? (place[i] as number) - (place[i + 1] as number) : 0);

const neighbours = (i: number, cells: number): number => Number(i > 0) + Number(i < cells - 1);

/** Pivots of W + s K, which is tridiagonal with -s beside its diagonal. */
function factor(w: Float64Array, s: number): Float64Array {
  const pivots = new Float64Array(w.length);
  for (let i = 0; i < w.length; i += 1) {
    const above = i === 0 ? 0 : (s * s) / (pivots[i - 1] as number);
    pivots[i] = (w[i] as number) + s * neighbours(i, w.length) - above;
  }
  return pivots;
}

function solve(pivots: Float64Array, s: number, right: Float64Array): Float64Array {
  const x = right.slice();
  for (let i = 1; i < x.length; i += 1)
    x[i] = (x[i] as number) + (s / (pivots[i - 1] as number)) * (x[i - 1] as number);
  for (let i = x.length - 1; i >= 0; i -= 1)
    x[i] = ((x[i] as number) + (i < x.length - 1 ? s * (x[i + 1] as number) : 0)) / (pivots[i] as number);
  return x;
}

/** Diagonal of the inverse by the pivots from both ends: 1 / (forward + backward - own). */
function inverseDiagonal(w: Float64Array, s: number, pivots: Float64Array): Float64Array {
  const back = factor(w.slice().reverse(), s).reverse();
  return w.map((own, i) => 1 / ((pivots[i] as number) + (back[i] as number) - own - s * neighbours(i, w.length)));
}
