import { ascendingOrder, kaplanMeier, riskTable } from "../../survival/index.ts";

/** Rows by ascending exit, and the chance of being still uncensored just before each exit. */
export interface Censoring {
  readonly order: Uint32Array;
  readonly exit: Float64Array;
  readonly end: Uint16Array;
  /** G(T-), at the row's place in the order. */
  readonly before: Float64Array;
}

/**
 * Kaplan-Meier curve of censoring, with its left limit at every exit.
 *   G(T-) = product over censoring times c < T of (1 - censored(c) / at risk(c))
 * Source: Fine JP, Gray RJ 1999, J Am Stat Assoc 94:496. Example: exits 1, 2+, 3: G(3-) = 1/2.
 */
export function censoringBefore(exit: ArrayLike<number>, end: ArrayLike<number>): Censoring {
  const order = ascendingOrder(exit);
  const rows = order.length;
  const censored = new Uint8Array(rows);
  for (let i = 0; i < rows; i += 1) censored[i] = end[i] === 0 ? 1 : 0;
  const curve = kaplanMeier(riskTable({ exit, end: censored }));
  const sorted = { exit: new Float64Array(rows), end: new Uint16Array(rows), before: new Float64Array(rows) };
  let step = 0;
  let g = 1;
  for (let k = 0; k < rows; k += 1) {
    const row = order[k] as number;
    const now = exit[row] as number;
    for (; step < curve.time.length && (curve.time[step] as number) < now; step += 1)
      g = curve.survival[step] as number;
    sorted.exit[k] = now;
    sorted.end[k] = end[row] as number;
    sorted.before[k] = g;
  }
  return { order, ...sorted };
}
