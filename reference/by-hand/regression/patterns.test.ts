import { type CountFit, poissonRegression } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { uniformFrom } from "../../generated-lines.ts";
import { curvature, slope, type SlowCounts, slowInverse, slowPoisson } from "./slow-likelihood.ts";

/** Covariates of few values (below zero, not whole, beyond a byte) between others of many. */
function mixed(seed: number, rows: number): SlowCounts {
  const uniform = uniformFrom(seed);
  const pick = (values: readonly number[]) => values[Math.floor(uniform() * values.length)] as number;
  const made = Array.from({ length: rows }, () => {
    const x = [pick([0, 1]), uniform(), pick([-1.5, 0, 2.25]), uniform() * 2, pick([300, 301]), uniform(), uniform()];
    const exposure = 0.5 + uniform() * 4;
    const mean = exposure * Math.exp(-0.4 + 0.5 * (x[0] as number) - 0.6 * (x[1] as number) + 0.2 * (x[2] as number));
    let count = 0;
    for (let left = mean + Math.log(1 - uniform()); left > 0; left += Math.log(1 - uniform())) count += 1;
    return { x, exposure, count };
  });
  return { count: made.map((r) => r.count), exposure: made.map((r) => r.exposure), x: made.map((r) => r.x) };
}
const columns = (data: SlowCounts, kept: readonly number[]) =>
  kept.map((j) => ({ name: `x${j}`, values: data.x.map((x) => x[j] as number) }));

// with few rows there would be more patterns than rows, and with the last set no covariate has few values
const CASES = [
  { seed: 21, rows: 300, kept: [0, 1, 2, 3, 4, 5, 6] },
  { seed: 22, rows: 9, kept: [0, 2] },
  { seed: 23, rows: 300, kept: [1, 3, 5, 6] },
  { seed: 24, rows: 300, kept: [2] },
  { seed: 25, rows: 30, kept: [] },
];

checkAgainst(
  {
    quantity: "Poisson regression with covariates of few and of many values",
    unit: "absolute",
    source: "the likelihood by its definition, differences of fourth order, and the misfit row by row",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: (8 + 3 + 5 + 2 + 1) * 2 + 5 * 4,
  },
  (compare) => {
    for (const { seed, rows, kept } of CASES) {
      const whole = mixed(seed, rows);
      const data = {
        ...whole,
        x: whole.x.map((x) => kept.map((j) => (j === 4 ? (x[j] as number) - 300 : x[j]) as number)),
      };
      const fit = poissonRegression({
        count: data.count,
        exposure: data.exposure,
        covariates: columns(whole, kept),
      }) as CountFit;
      // the twin counts its column from 300: the intercept moves by 300 of that coefficient, and nothing else
      const shift = 300 * (fit.coefficients.find(({ name }) => name === "x4")?.value ?? 0);
      const b = fit.coefficients.map(({ value }, j) => (j === 0 ? value + shift : value));
      const slow = (at: readonly number[]) => slowPoisson(data, at);
      const errors = slowInverse(curvature(slow, b));
      for (const [j, { name, standardError }] of fit.coefficients.entries()) {
        compare(`slope along ${name}, seed ${seed}`, 0, slope(slow, b, j));
        if (name === "(intercept)" && kept.includes(4))
          compare(`errors are in order, seed ${seed}`, Math.sign(standardError), 1);
        else compare(`error of ${name}, seed ${seed}`, standardError, Math.sqrt(errors[j]?.[j] as number));
      }
      const means = data.x.map(
        (x, i) =>
          (data.exposure[i] as number) *
          Math.exp([1, ...x].reduce((sum, value, j) => sum + value * (b[j] as number), 0)),
      );
      const total = (of: (y: number, mean: number) => number) =>
        data.count.reduce((sum, y, i) => sum + of(y, means[i] as number), 0);
      compare(`log likelihood, seed ${seed}`, fit.logLikelihood, slow(b));
      compare(`last mean, seed ${seed}`, fit.fitted.at(-1) as number, means.at(-1) as number);
      compare(
        `Pearson, seed ${seed}`,
        fit.pearson,
        total((y, mean) => (y - mean) ** 2 / mean),
      );
      compare(
        `deviance, seed ${seed}`,
        fit.deviance,
        total((y, mean) => 2 * ((y > 0 ? y * Math.log(y / mean) : 0) - y + mean)),
      );
    }
  },
);
