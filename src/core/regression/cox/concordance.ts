import { ascendingOrder } from "../../survival/index.ts";
import type { RiskSets } from "./risk-sets.ts";

export interface Concordance {
  /** Share of the pairs whose order the model foretells; 0.5 is guessing. */
  readonly concordance: number;
  readonly standardError: number;
  /** Pairs in which the earlier event had the higher, the lower and the same hazard. */
  readonly concordant: number;
  readonly discordant: number;
  readonly tied: number;
}

/**
 * Harrell's concordance: of two rows, whether the one with the higher hazard has its event first.
 *   C = (concordant + tied / 2) / pairs; a pair is an event at u and a row of its stratum at risk at u and after it
 *   variance: sum over rows (or clusters) of ((n_i - C p_i) / pairs)^2, n_i and p_i the row's own sums (jackknife)
 * Two events at one time are no pair; a row censored at u outlives the event at u. Delayed entry allowed.
 * Holds: at least one pair, else no number. O(n log n): counts of the scores below, in a tree over their ranks.
 * Source: Harrell FE and others 1996, Stat Med 15:361; Therneau T, Atkinson E 2020, Concordance (survival package).
 * Example: Freireich's trial, control against 6-MP: 0.690042.
 */
export function concordanceOf(
  sets: RiskSets,
  scores: Float64Array,
  cluster?: ArrayLike<number>,
  /** What a pair counts, for every place of its earlier event; one where absent. */
  weights?: Float64Array,
): Concordance {
  const { rows, places } = sets;
  const rank = ranksOf(scores);
  const lower = new Tree(rows); // by rank: rows at risk, then events past
  const own = new Float64Array(rows); // each row's concordant pairs, half its tied ones
  const pairs = new Float64Array(rows);
  let concordant = 0;
  let tied = 0;
  let all = 0;
  // from the latest time down: every event against the rows that outlive it
  for (let p = 0, joined = 0, left = 0, first = -1; p < places; p += 1) {
    if (sets.first[p] !== first) {
      lower.clear();
      first = sets.first[p] as number;
      joined = first;
      left = first;
    }
    const from = sets.deaths[p] as number;
    const end = sets.deathsEnd[p] as number;
    // rows met after an event time of theirs; the tied events come in once they have been held against the rest
    for (; joined < (sets.joined[p] as number); joined += 1) {
      if (joined < from || joined >= end) lower.add(rank[joined] as number, 1);
    }
    for (; left < (sets.left[p] as number); left += 1) lower.add(rank[sets.leaving[left] as number] as number, -1);
    const weight = weights?.[p] ?? 1;
    for (let row = from; row < end; row += 1) {
      const below = weight * lower.below(rank[row] as number);
      const same = weight * lower.at(rank[row] as number);
      concordant += below;
      tied += same;
      all += weight * lower.total;
      own[row] = below + same / 2;
      pairs[row] = weight * lower.total;
    }
    for (let row = from; row < end; row += 1) lower.add(rank[row] as number, 1);
  }
  const share = (concordant + tied / 2) / all;
  addOutlived(sets, rank, lower, { own, pairs }, weights);
  const influence = new Map<number, number>();
  for (let row = 0; row < rows; row += 1) {
    const source = sets.source[row] as number;
    const key = cluster === undefined ? source : (cluster[source] as number);
    const part = ((own[row] as number) - share * (pairs[row] as number)) / all;
    influence.set(key, (influence.get(key) ?? 0) + part);
  }
  let variance = 0;
  for (const part of influence.values()) variance += part * part;
  return {
    concordance: share,
    standardError: Math.sqrt(variance),
    concordant,
    discordant: all - concordant - tied,
    tied,
  };
}

/** From the earliest time up: every row against the events it outlived while it was watched. */
function addOutlived(
  sets: RiskSets,
  rank: Uint32Array,
  lower: Tree,
  { own, pairs }: { readonly own: Float64Array; readonly pairs: Float64Array },
  weights: Float64Array | undefined,
): void {
  const take = (row: number, sign: 1 | -1) => {
    const at = rank[row] as number;
    own[row] = (own[row] as number) + sign * (lower.total - lower.below(at) - lower.at(at) / 2);
    pairs[row] = (pairs[row] as number) + sign * lower.total;
  };
  for (let p = sets.places - 1; p >= 0; p -= 1) {
    const first = sets.first[p] as number;
    if (p === sets.places - 1 || sets.first[p + 1] !== first) lower.clear();
    const from = sets.deaths[p] as number;
    const end = sets.deathsEnd[p] as number;
    for (let row = from; row < end; row += 1) take(row, 1);
    for (let row = from; row < end; row += 1) lower.add(rank[row] as number, weights?.[p] ?? 1);
    // rows met at this place, between the place above and its own events, outlive all events up to here
    const met = p > 0 && sets.first[p - 1] === first ? (sets.joined[p - 1] as number) : first;
    for (let row = met; row < (sets.joined[p] as number); row += 1) if (row < from || row >= end) take(row, 1);
    // rows that entered at or after this time, but before the one above, were not watched until then
    const gone = p > 0 && sets.first[p - 1] === first ? (sets.left[p - 1] as number) : first;
    if (sets.entry !== undefined) {
      for (let k = gone; k < (sets.left[p] as number); k += 1) take(sets.leaving[k] as number, -1);
    }
  }
}

/** Equal scores share a rank. */
function ranksOf(scores: Float64Array): Uint32Array {
  const order = ascendingOrder(scores);
  const rank = new Uint32Array(scores.length);
  for (let k = 1; k < order.length; k += 1) {
    const again = scores[order[k] as number] === scores[order[k - 1] as number];
    rank[order[k] as number] = (rank[order[k - 1] as number] as number) + (again ? 0 : 1);
  }
  return rank;
}

/** Counts by rank, with the sum below a rank in log n steps. Source: Fenwick PM 1994, Softw Pract Exp 24:327. */
class Tree {
  readonly #sums: Float64Array;
  readonly #counts: Float64Array;
  total = 0;

  constructor(size: number) {
    this.#sums = new Float64Array(size + 1);
    this.#counts = new Float64Array(size);
  }
  clear(): void {
    this.#sums.fill(0);
    this.#counts.fill(0);
    this.total = 0;
  }
  add(rank: number, count: number): void {
    this.#counts[rank] = this.at(rank) + count;
    this.total += count;
    for (let k = rank + 1; k < this.#sums.length; k += k & -k) this.#sums[k] = (this.#sums[k] as number) + count;
  }
  at(rank: number): number {
    return this.#counts[rank] as number;
  }
  below(rank: number): number {
    let sum = 0;
    for (let k = rank; k > 0; k -= k & -k) sum += this.#sums[k] as number;
    return sum;
  }
}
