/** Regula falsi with the end that stays halved (Illinois). Holds: signs that differ. Source: Dowell M, Jarratt P 1971, BIT 11:168 (from memory). */
export function rootBetween(f: (v: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  let [fa, fb] = [f(a), f(b)];
  for (let step = 0; step < 100 && Math.abs(b - a) > 1e-11 * b; step += 1) {
    const c = b - (fb * (b - a)) / (fb - fa);
    const fc = f(c);
    if (fc === 0 || Math.abs(c - b) <= 1e-11 * b) return c;
    if (fc * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [c, fc];
  }
  return b;
}
