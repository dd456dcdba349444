/** Eleven bits a pass: 2,048 counters stay in the nearest cache, and six passes cover the 64 bits of a number. */
const BITS = 11;
const COUNTERS = 1 << BITS;
const PASSES = 6;
/** Below this a comparison sort is quicker than clearing the counters. */
const FEW = 400;

/**
 * The places of the values in ascending order; equal values keep their order.
 *   radix sort on the bits of the numbers, O(n)
 * Holds: finite values of either sign; a value that is not a number is a RangeError.
 * Source: Knuth DE 1998, The Art of Computer Programming 3, 5.2.5 (from memory).
 * Example: ascendingOrder([5, 1, 3]) = [1, 2, 0].
 */
export function ascendingOrder(values: ArrayLike<number>): Uint32Array<ArrayBuffer> {
  const n = values.length;
  const places = Uint32Array.from({ length: n }, (_, index) => index);
  for (let i = 0; i < n; i += 1) {
    if (!Number.isFinite(values[i])) {
      throw new RangeError(`Value ${i + 1} is ${values[i]}; only finite numbers can be put in order. Mend or drop it.`);
    }
  }
  if (n < FEW) {
    return places.sort((a, b) => (values[a] as number) - (values[b] as number) || a - b);
  }
  const bits = new Uint32Array(2);
  const number = new Float64Array(bits.buffer);
  // the keys travel with the places, so that every pass reads in order
  let from = keyed(n);
  let to = keyed(n);
  from.place.set(places);
  // all six counts in one reading
  const count = new Uint32Array(PASSES * COUNTERS);
  for (let i = 0; i < n; i += 1) {
    number[0] = (values[i] as number) + 0; // minus zero becomes zero
    const top = bits[1] as number;
    // bits of negative numbers run backwards, so they are turned over; the sign bit is flipped for all
    const turn = top >>> 31 === 1 ? -1 : 0;
    const low = (bits[0] as number) ^ turn;
    const high = (top ^ (turn | 0x80000000)) >>> 0;
    from.low[i] = low;
    from.high[i] = high;
    for (let pass = 0; pass < PASSES; pass += 1) {
      const at = pass * COUNTERS + digit(low, high, pass);
      count[at] = (count[at] as number) + 1;
    }
  }
  for (let pass = 0; pass < PASSES; pass += 1) {
    const tally = count.subarray(pass * COUNTERS, (pass + 1) * COUNTERS);
    if (tally[digit(from.low[0] as number, from.high[0] as number, pass)] === n) continue;
    let start = 0;
    for (let d = 0; d < COUNTERS; d += 1) {
      const size = tally[d] as number;
      tally[d] = start;
      start += size;
    }
    distribute(from, to, tally, pass);
    [from, to] = [to, from];
  }
  return from.place;
}

interface Keyed {
  readonly place: Uint32Array<ArrayBuffer>;
  readonly low: Uint32Array;
  readonly high: Uint32Array;
}

const keyed = (n: number): Keyed => ({
  place: new Uint32Array(n),
  low: new Uint32Array(n),
  high: new Uint32Array(n),
});

function digit(low: number, high: number, pass: number): number {
  const shift = pass * BITS;
  if (shift >= 32) return (high >>> (shift - 32)) & (COUNTERS - 1);
  return ((low >>> shift) | (shift + BITS > 32 ? high << (32 - shift) : 0)) & (COUNTERS - 1);
}

function distribute(from: Keyed, to: Keyed, next: Uint32Array, pass: number): void {
  const { place, low, high } = from;
  for (let k = 0; k < place.length; k += 1) {
    const d = digit(low[k] as number, high[k] as number, pass);
    const target = next[d] as number;
    next[d] = target + 1;
    to.place[target] = place[k] as number;
    to.low[target] = low[k] as number;
    to.high[target] = high[k] as number;
  }
}
