import { binomialFunnel, poissonFunnel, shrinkRates } from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";
import { uniformFrom } from "../../generated-lines.ts";

/** Twelve units whose rates differ by a factor of up to twenty. */
function units(seed: number): { count: number[]; exposure: number[] } {
  const uniform = uniformFrom(seed);
  const exposure = Array.from({ length: 12 }, () => 0.5 + uniform() * 5);
  const count = exposure.map((time) => Math.floor(time * 6 * uniform() ** 2));
  return { count, exposure };
}

/** Integral over rates of a weight times Gamma(a, b) density times Poisson chance, by Simpson's rule on a log scale. */
function integral(a: number, b: number, count: number, time: number, weight: (rate: number) => number): number {
  const steps = 8000;
  const low = -80;
  const high = 6;
  let sum = 0;
  for (let k = 0; k <= steps; k += 1) {
    const at = low + ((high - low) * k) / steps;
    const rate = Math.exp(at);
    const log = a * at - b * rate + count * at - rate * time; // the density in log rate, less its constants
    sum += (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2) * weight(rate) * Math.exp(log);
  }
  return (sum * (high - low)) / steps / 3;
}

checkAgainst(
  {
    quantity: "Shrunken rates on generated units, as integrals",
    unit: "relative",
    source: "Gamma times Poisson integrated by Simpson's rule",
    kind: "by-hand",
    tolerance: 1e-8,
    relative: true,
    comparisons: 4 * 13,
  },
  (compare) => {
    for (const seed of [1, 2, 3, 4]) {
      const data = units(seed);
      const found = shrinkRates(data);
      if (found.kind !== "shrunk") continue; // then the count of comparisons fails
      const { shape: a, rate: b } = found;
      for (const [k, unit] of found.units.entries()) {
        const [x, time] = [data.count[k] as number, data.exposure[k] as number];
        const mean = integral(a, b, x, time, (rate) => rate) / integral(a, b, x, time, () => 1);
        compare(`seed ${seed}, unit ${k}`, unit.mean, mean);
      }
      // the likelihood is level in b where the units' means average to the common mean a / b
      const average = found.units.reduce((sum, unit) => sum + unit.mean, 0) / found.units.length;
      compare(`seed ${seed}, mean of the means`, average, a / b);
    }
  },
);

checkAgainst(
  {
    quantity: "Funnel limits on generated expectations",
    unit: "count",
    source: "the distribution added up from zero in logarithms",
    kind: "by-hand",
    tolerance: 1e-8,
    comparisons: 160,
  },
  (compare) => {
    const slow = (chance: (r: number) => number, share: number): number => {
      let below = 0;
      for (let r = 0; ; r += 1) {
        const here = chance(r);
        if (below + here >= share) return Math.max(0, r - (below + here - share) / here);
        below += here;
      }
    };
    const logFactorial = (r: number) => Array.from({ length: r }, (_, i) => Math.log(i + 1)).reduce((a, b) => a + b, 0);
    const uniform = uniformFrom(5);
    const shares = [0.001, 0.025, 0.975, 0.999];
    for (let k = 0; k < 20; k += 1) {
      const expected = 0.2 + uniform() ** 2 * 80;
      const size = 20 + Math.floor(uniform() * 150);
      const p = 0.01 + 0.5 * uniform();
      const counts = poissonFunnel(expected, shares);
      const chosen = binomialFunnel(size, p, shares);
      for (const [s, share] of shares.entries()) {
        const poisson = (r: number) => Math.exp(r * Math.log(expected) - expected - logFactorial(r));
        compare(`expected ${expected}, ${share}`, counts[s] as number, slow(poisson, share));
        const binomial = (r: number) =>
          Math.exp(
            logFactorial(size) -
              logFactorial(r) -
              logFactorial(size - r) +
              r * Math.log(p) +
              (size - r) * Math.log(1 - p),
          );
        compare(`${size} at ${p}, ${share}`, chosen[s] as number, slow(binomial, share));
      }
    }
  },
);
