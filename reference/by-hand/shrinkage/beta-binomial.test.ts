import { expect, test } from "vitest";
import {
  chanceShareAbove,
  fullBayesRates,
  posteriorShare,
  shrinkShares,
  shrunkShareLimits,
} from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";
import { uniformFrom } from "../../generated-lines.ts";

/** Units of five to sixty members whose shares differ widely. */
function generated(seed: number, units: number): { count: number[]; number: number[] } {
  const uniform = uniformFrom(seed);
  const number = Array.from({ length: units }, () => 5 + Math.floor(55 * uniform()));
  return { number, count: number.map((size) => Math.floor((size + 1) * uniform() ** 3)) };
}

/** Log likelihood of the beta-binomial, written as its products of single draws: a/(a+b), (a+1)/(a+b+1), ... */
function slowLikelihood({ count, number }: { count: number[]; number: number[] }, a: number, b: number): number {
  let sum = 0;
  count.forEach((x, i) => {
    const size = number[i] as number;
    for (let k = 0; k < size; k += 1)
      sum += Math.log((k < x ? a + k : b + k - x) / (a + b + k)) + (k < x ? Math.log((size - k) / (k + 1)) : 0);
  });
  return sum;
}

/** The top of a curve with one top, by thirds. */
function top(height: (at: number) => number, low: number, high: number): number {
  while (high - low > 1e-7) {
    const [first, second] = [low + (high - low) / 3, high - (high - low) / 3];
    if (height(first) < height(second)) low = first;
    else high = second;
  }
  return (low + high) / 2;
}

/** Integral of a weight times p^(a - 1) (1 - p)^(b - 1) from zero to a share, in ln odds, by Simpson's rule. */
function integral(a: number, b: number, weight: (share: number) => number, upTo = 1 - 1e-16): number {
  const [steps, low, high] = [6000, -60, Math.log(upTo / (1 - upTo))];
  let sum = 0;
  for (let k = 0; k <= steps; k += 1) {
    const odds = Math.exp(low + ((high - low) * k) / steps);
    const share = odds / (1 + odds);
    const density = Math.exp(a * Math.log(share) - b * Math.log1p(odds));
    sum += (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2) * weight(share) * density;
  }
  return (sum * (high - low)) / steps / 3;
}

checkAgainst(
  {
    quantity: "Beta-binomial of generated units: its top",
    unit: "relative",
    source: "products of single draws, searched by thirds",
    kind: "by-hand",
    tolerance: 2e-6,
    relative: true,
    comparisons: 12,
  },
  (compare) => {
    for (const seed of [11, 12, 13, 14]) {
      const data = generated(seed, 9);
      const found = shrinkShares(data);
      if (found.kind !== "shrunk") continue; // then the count of comparisons fails
      const atMean = (mean: number, logSum: number) =>
        slowLikelihood(data, mean * Math.exp(logSum), (1 - mean) * Math.exp(logSum));
      const meanOf = (logSum: number) => top((mean) => atMean(mean, logSum), 0.001, 0.999);
      const logSum = top((at) => atMean(meanOf(at), at), -4, 8);
      compare(`seed ${seed}, alpha + beta`, found.alpha + found.beta, Math.exp(logSum));
      compare(`seed ${seed}, mean`, found.alpha / (found.alpha + found.beta), meanOf(logSum));
      compare(`seed ${seed}, height`, found.logLikelihood, slowLikelihood(data, found.alpha, found.beta));
    }
  },
);

checkAgainst(
  {
    quantity: "Shrunken shares, their limits and chances, as integrals",
    unit: "absolute",
    source: "Beta times binomial integrated by Simpson's rule",
    kind: "by-hand",
    tolerance: 1e-8,
    comparisons: 48,
  },
  (compare) => {
    const { count, number } = generated(15, 12);
    for (const [k, x] of count.entries()) {
      const unit = posteriorShare(0.8, 3.5, x, number[k] as number);
      const [a, b] = [0.8 + x, 3.5 + (number[k] as number) - x];
      const whole = integral(a, b, () => 1);
      const below = (limit: number) => integral(a, b, () => 1, limit) / whole;
      const { lower, upper } = shrunkShareLimits(unit, 0.9);
      compare(`unit ${k}, mean`, unit.mean, integral(a, b, (share) => share) / whole);
      compare(`unit ${k}, below the lower limit`, below(lower), 0.05);
      compare(`unit ${k}, below the upper limit`, below(upper), 0.95);
      compare(`unit ${k}, above 0.2`, chanceShareAbove(unit, 0.2), 1 - below(0.2));
    }
  },
);

/** Every place of a plain lattice of shape and rate, the weight by its definition, each rate's chance added up. */
function slowFullBayes(data: { count: number[]; exposure: number[] }, at: number): { mean: number; below: number } {
  const logGamma = (x: number): number => {
    // shifted up by the recurrence until Stirling's two terms are exact to twelve digits
    let [shift, y] = [0, x];
    for (; y < 60; y += 1) shift -= Math.log(y);
    return shift + (y - 0.5) * Math.log(y) - y + Math.log(2 * Math.PI) / 2 + 1 / (12 * y) - 1 / (360 * y ** 3);
  };
  const [x, time] = [data.count[0] as number, data.exposure[0] as number];
  let [total, mean, below] = [0, 0, 0];
  for (let u = -8; u <= 4; u += 0.15)
    for (let v = -24; v <= 5; v += 0.15) {
      const [a, b] = [Math.exp(u), Math.exp(v)];
      let log = -a + u + 0.5 * v - b; // priors Exp(1) and Gamma(0.5, 1), and the steps in logarithms
      data.count.forEach((own, i) => {
        const days = data.exposure[i] as number;
        log += logGamma(a + own) - logGamma(a) + a * Math.log(b) - (a + own) * Math.log(b + days);
      });
      const weight = Math.exp(log);
      total += weight;
      mean += (weight * (a + x)) / (b + time);
      // the lower tail of a gamma by its own series
      const z = (b + time) * at;
      let [term, sum] = [1 / (a + x), 0];
      for (let n = 1; term > 1e-16 * sum; n += 1) {
        sum += term;
        term *= z / (a + x + n);
      }
      below += weight * sum * Math.exp((a + x) * Math.log(z) - z - logGamma(a + x));
    }
  return { mean: mean / total, below: below / total };
}

checkAgainst(
  {
    quantity: "Full Bayes on generated units: mean and limits of the first",
    unit: "absolute",
    source: "a plain lattice of shape and rate, the gamma's own series",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 12,
  },
  (compare) => {
    for (const seed of [21, 22, 23, 24]) {
      const uniform = uniformFrom(seed);
      const exposure = Array.from({ length: 6 }, () => 0.5 + 4 * uniform());
      const count = exposure.map((time) => Math.floor(5 * time * uniform() ** 2));
      const [first] = fullBayesRates(
        { count, exposure },
        { shapeMean: 1, rateShape: 0.5, rateRate: 1 },
        { level: 0.9 },
      ).units;
      if (!first) continue; // then the count of comparisons fails
      compare(`seed ${seed}, mean`, first.mean, slowFullBayes({ count, exposure }, first.lower).mean);
      compare(`seed ${seed}, lower`, slowFullBayes({ count, exposure }, first.lower).below, 0.05);
      compare(`seed ${seed}, upper`, slowFullBayes({ count, exposure }, first.upper).below, 0.95);
    }
  },
);

test("units that differ no more than chance are pooled, and units of all or none have nothing in common", () => {
  const even = shrinkShares({ count: [4, 5, 4, 5], number: [100, 100, 100, 100] });
  // sum of squares 4 x 0.25 over 100 x 0.045 x 0.955
  expect(even).toMatchObject({ kind: "no excess spread", pooled: 0.045, degreesOfFreedom: 3 });
  expect(even.kind === "no excess spread" && even.pearson).toBeCloseTo(1 / 4.2975, 12);
  expect(shrinkShares({ count: [5, 0, 7, 0], number: [5, 4, 7, 9] }).kind).toBe("all or none");
});
