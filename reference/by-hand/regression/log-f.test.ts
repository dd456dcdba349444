import { type Coefficient, logFCox, logFLogistic, logFPoisson } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedLines } from "../../generated-lines.ts";
import { curvature, slope, slowCox, slowInverse, slowLogistic, slowPoisson, slowRows } from "./slow-likelihood.ts";

/** What m added lines say, half with the event and half without, one unit of a covariate apart: fractions allowed. */
const prior = (b: readonly number[], degrees: number): number =>
  b.reduce((sum, at) => {
    const chance = 1 / (1 + Math.exp(-at));
    return sum + (degrees / 2) * Math.log(chance) + (degrees / 2) * Math.log(1 - chance);
  }, 0);

checkAgainst(
  {
    quantity: "Log-F priors on generated lines: Cox, Poisson and logistic",
    unit: "absolute",
    source: "the likelihoods by their definitions with the added lines, differences of fourth order",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 2 * 2 * (5 + 7 + 7),
  },
  (compare) => {
    for (const seed of [71, 72]) {
      for (const degrees of [1, 2.5]) {
        const lines = generatedLines(seed, 40, { grain: 6 });
        const event = lines.end.map((end) => (end === 1 ? 1 : 0));
        const covariates = lines.covariates.map((values, j) => ({ name: `x${j}`, values }));
        const data = { count: event, exposure: lines.exit, x: slowRows(lines, false).map((row) => row.x) };
        const cases = [
          {
            name: "Cox",
            fit: logFCox({ exit: lines.exit, event, covariates }, degrees),
            slow: (b: readonly number[]) => slowCox(slowRows(lines, false), "efron", b) + prior(b, degrees),
          },
          {
            name: "Poisson",
            fit: logFPoisson({ count: event, exposure: lines.exit, covariates }, degrees),
            slow: (b: readonly number[]) => slowPoisson(data, b) + prior(b.slice(1), degrees),
          },
          {
            name: "logistic",
            fit: logFLogistic({ count: event, covariates }, degrees),
            slow: (b: readonly number[]) => slowLogistic(data, b) + prior(b.slice(1), degrees),
          },
        ];
        for (const { name, fit, slow } of cases) {
          if (fit.kind !== "fitted") continue; // then the count of comparisons fails
          const b = fit.coefficients.map((each: Coefficient) => each.value);
          const errors = slowInverse(curvature(slow, b));
          compare(`${name}, log likelihood, seed ${seed}, m ${degrees}`, fit.logLikelihood, slow(b));
          for (const [j, each] of fit.coefficients.entries()) {
            compare(`${name}, slope ${j}, seed ${seed}, m ${degrees}`, 0, slope(slow, b, j));
            compare(
              `${name}, error ${j}, seed ${seed}, m ${degrees}`,
              each.standardError,
              Math.sqrt(errors[j]?.[j] as number),
            );
          }
        }
      }
    }
  },
);
