/**
 * The place between two ends where a function changes sign, by the Illinois form of false position.
 *   f(low) and f(high) of opposite sign, or the nearer end is given back
 * Holds: f continuous; stops when the bracket is narrower than `precision` or f is 0.
 * Source: Dowell M, Jarratt P 1971, BIT 11:168 (from memory). Example: rootBetween(Math.cos, 0, 3, 1e-12) = pi/2.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, precision: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (fa === 0 || fa > 0 === fb > 0) return Math.abs(fa) <= Math.abs(fb) ? a : b;
  for (let step = 0; step < 200 && Math.abs(b - a) > precision; step += 1) {
    // every fourth step halves, so that a flat end cannot hold the bracket open
    const middle = step % 4 === 3 ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const at = f(middle);
    if (at === 0) return middle;
    if (at > 0 === fb > 0) {
      fa /= 2;
    } else {
      a = b;
      fa = fb;
    }
    b = middle;
    fb = at;
  }
  return b;
}
