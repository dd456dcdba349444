import { mixedPoisson } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, dataset } from "../../data/dataset.ts";
import { uniformFrom } from "../../generated-lines.ts";
import { slope } from "./slow-likelihood.ts";

interface Row {
  readonly count: number;
  readonly exposure: number;
  readonly patient: number;
  readonly x: readonly number[];
}
const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

function rowsOfPatients(seed: number): Row[] {
  const uniform = uniformFrom(seed);
  return Array.from({ length: 30 }).flatMap((_, patient) => {
    const own = 2.4 * (uniform() - 0.5) + (uniform() < 0.5 ? 0.6 : -0.6);
    return Array.from({ length: 1 + Math.floor(uniform() * 3) }, () => {
      const x = [uniform() < 0.4 ? 1 : 0, uniform() * 3];
      const exposure = 1 + uniform() * 4;
      const mean = exposure * Math.exp(-0.8 + own + 0.5 * (x[0] as number) - 0.2 * (x[1] as number));
      let count = 0;
      for (let left = mean + Math.log(1 - uniform()); left > 0; left += Math.log(1 - uniform())) count += 1;
      return { count, exposure, patient, x };
    });
  });
}

/** Laplace's method by its definition: the top of each patient's curve by halving, its bend by differences. */
function slowLaplace(rows: readonly Row[], b: readonly number[], spread: number): number {
  const logOf = (n: number) => total(Array.from({ length: n }, (_, i) => Math.log(i + 1)));
  return total(
    [...new Set(rows.map((row) => row.patient))].map((patient) => {
      const mine = rows.filter((row) => row.patient === patient);
      const curve = (u: number) =>
        total(
          mine.map(({ count, exposure, x }) => {
            const mean = exposure * Math.exp(total([1, ...x].map((value, j) => value * (b[j] as number))) + u);
            return count * Math.log(mean) - mean - logOf(count);
          }),
        ) -
        (u * u) / (2 * spread * spread) -
        Math.log(spread * Math.sqrt(2 * Math.PI));
      let [low, high] = [-20, 20];
      for (let k = 0; k < 60; k += 1) {
        const middle = (low + high) / 2;
        if (slope(([u]) => curve(u as number), [middle], 0, 1e-3) > 0) low = middle;
        else high = middle;
      }
      const top = (low + high) / 2;
      const bend = -slope(([v]) => slope(([u]) => curve(u as number), [v as number], 0, 1e-2), [top], 0, 1e-2);
      return curve(top) + Math.log((2 * Math.PI) / bend) / 2;
    }),
  );
}

checkAgainst(
  {
    quantity: "Poisson regression with a spread between patients, on generated counts",
    unit: "absolute",
    source: "Laplace's method by its definition, level in every direction at our answer",
    kind: "by-hand",
    tolerance: 2e-6,
    comparisons: 2 * 5,
  },
  (compare) => {
    for (const seed of [101, 102]) {
      const rows = rowsOfPatients(seed);
      const fit = mixedPoisson({
        count: rows.map((row) => row.count),
        exposure: rows.map((row) => row.exposure),
        cluster: rows.map((row) => row.patient),
        covariates: [0, 1].map((j) => ({ name: `x${j}`, values: rows.map((row) => row.x[j] as number) })),
      });
      if (fit.kind !== "fitted") throw new Error(fit.kind);
      const at = [...fit.coefficients.map(({ value }) => value), Math.log(fit.spread)];
      const slow = (b: readonly number[]) => slowLaplace(rows, b, Math.exp(b[3] as number));
      compare(`log likelihood, seed ${seed}`, fit.logLikelihood, slow(at));
      for (const j of at.keys()) compare(`slope ${j}, seed ${seed}`, 0, slope(slow, at, j, 1e-2));
    }
  },
);

checkAgainst(
  {
    quantity: "Rates of dialysis catheters with a spread between patients",
    unit: "relative",
    source: "R 4.2.2, lme4 1.1-31, glmer by Laplace at its usual stop",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 3,
  },
  (compare) => {
    const kidney = dataset("survival_kidney");
    const fit = mixedPoisson({
      count: column(kidney, "status"),
      exposure: column(kidney, "time"),
      cluster: column(kidney, "id"),
      covariates: [{ name: "sex", values: column(kidney, "sex") }],
    });
    if (fit.kind !== "fitted") throw new Error(fit.kind);
    compare("sex", fit.coefficients[1]?.value as number, -1.36144352);
    compare("spread", fit.spread, 0.584818455);
    compare("log likelihood", fit.logLikelihood, -100.240312);
  },
);
