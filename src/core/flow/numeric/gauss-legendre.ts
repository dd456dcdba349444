export interface Quadrature {
  /** Between -1 and 1, rising. */
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Nodes and weights of Gauss and Legendre on (-1, 1).
 *   INT f = SUM w(i) f(x(i)), exact for polynomials of degree 2 n - 1; roots of the Legendre polynomial by Newton
 * Holds: n from 1 to 200. Source: Abramowitz M, Stegun IA 1964, 25.4.29. Example: n 2: nodes at +-1/sqrt 3, weights 1.
 */
export function gaussLegendre(n: number): Quadrature {
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < Math.ceil(n / 2); i += 1) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 0;
    for (let step = 0; step < 100; step += 1) {
      let before = 1;
      let here = x;
      for (let degree = 2; degree <= n; degree += 1)
        [before, here] = [here, ((2 * degree - 1) * x * here - (degree - 1) * before) / degree];
      slope = (n * (x * here - before)) / (x * x - 1);
      const move = here / slope;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    nodes[i] = -x;
    nodes[n - 1 - i] = x;
    weights[i] = weights[n - 1 - i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

/** INT of f from `from` to `to`. */
export function integrate(rule: Quadrature, from: number, to: number, f: (x: number) => number): number {
  const half = (to - from) / 2;
  let sum = 0;
  for (let i = 0; i < rule.nodes.length; i += 1)
    sum += (rule.weights[i] as number) * f(from + half * (1 + (rule.nodes[i] as number)));
  return sum * half;
}
