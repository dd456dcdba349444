/** Eleven bits a pass: 2,048 counters stay in the nearest cache, and three passes cover the upper 32 bits of a number. */
const BITS = 11;
const COUNTERS = 1 << BITS;
const PASSES = 3;
/** Below this a comparison sort is quicker than clearing the counters. */
const FEW = 400;

/**
 * The places of the values in ascending order; equal values keep their order.
 *   radix sort on the upper half of the bits of the numbers, O(n); values whose upper halves agree are within a
 *   millionth of each other, stand in a row after it, and are then put in order by comparison where they are not yet
 * Holds: finite values of either sign; a value that is not a number is a RangeError.
 * Source: Knuth DE 1998, The Art of Computer Programming 3, 5.2.5 (from memory).
 * Example: ascendingOrder([5, 1, 3]) = [1, 2, 0].
 */
export function ascendingOrder(values: ArrayLike<number>): Uint32Array<ArrayBuffer> {
  const n = values.length;
  const before = (a: number, b: number) => (values[a] as number) - (values[b] as number) || a - b;
  for (let i = 0; i < n; i += 1) {
    if (!Number.isFinite(values[i])) {
      throw new RangeError(`Value ${i + 1} is ${values[i]}; only finite numbers can be put in order. Mend or drop it.`);
    }
  }
  let from = { place: new Uint32Array(n), key: new Uint32Array(n) };
  for (let i = 0; i < n; i += 1) from.place[i] = i;
  if (n < FEW) return from.place.sort(before);
  const count = new Uint32Array(PASSES * COUNTERS);
  writeKeys(values, from.key, count);
  // the keys travel with the places, so that every pass reads in order
  let to = { place: new Uint32Array(n), key: new Uint32Array(n) };
  for (let pass = 0; pass < PASSES; pass += 1) {
    const tally = count.subarray(pass * COUNTERS, (pass + 1) * COUNTERS);
    if (tally[((from.key[0] as number) >>> (pass * BITS)) & (COUNTERS - 1)] === n) continue;
    distribute(from, to, tally, pass * BITS);
    [from, to] = [to, from];
  }
  const { place, key } = from;
  for (let i = 0; i < n;) {
    const start = i;
    let sorted = true;
    for (i += 1; i < n && key[i] === key[start]; i += 1) {
      if ((values[place[i] as number] as number) < (values[place[i - 1] as number] as number)) sorted = false;
    }
    if (!sorted) place.subarray(start, i).sort(before);
  }
  return place;
}

interface Keyed {
  readonly place: Uint32Array<ArrayBuffer>;
  readonly key: Uint32Array<ArrayBuffer>;
}

/** Upper halves of the bits, turned so that they ascend with the values, and how often each digit is met. */
function writeKeys(values: ArrayLike<number>, key: Uint32Array, count: Uint32Array): void {
  const number = new Float64Array(1);
  const bits = new Uint32Array(number.buffer);
  for (let i = 0; i < key.length; i += 1) {
    number[0] = (values[i] as number) + 0; // minus zero becomes zero
    const top = bits[1] as number;
    // bits of negative numbers run backwards, so they are turned over; the sign bit is flipped for all
    const digits = (top ^ (top >>> 31 === 1 ? 0xffffffff : 0x80000000)) >>> 0;
    key[i] = digits;
    for (let pass = 0; pass < PASSES; pass += 1) {
      const at = pass * COUNTERS + ((digits >>> (pass * BITS)) & (COUNTERS - 1));
      count[at] = (count[at] as number) + 1;
    }
  }
}

function distribute(from: Keyed, to: Keyed, tally: Uint32Array, shift: number): void {
  let start = 0;
  for (let d = 0; d < COUNTERS; d += 1) {
    const size = tally[d] as number;
    tally[d] = start;
    start += size;
  }
  const { place, key } = from;
  for (let k = 0; k < place.length; k += 1) {
    const digits = key[k] as number;
    const d = (digits >>> shift) & (COUNTERS - 1);
    const target = tally[d] as number;
    tally[d] = target + 1;
    to.place[target] = place[k] as number;
    to.key[target] = digits;
  }
}
