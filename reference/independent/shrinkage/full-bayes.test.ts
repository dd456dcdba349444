import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { fullBayesRates } from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";

/** Ten pumps: Gaver and O'Muircheartaigh 1987, Technometrics 29:1. */
const PUMPS = {
  count: [5, 1, 5, 14, 3, 19, 1, 1, 4, 22],
  exposure: [94.32, 15.72, 62.88, 125.76, 5.24, 31.44, 1.048, 1.048, 2.096, 10.48],
};
const PRIOR = { shapeMean: 1, rateShape: 0.1, rateRate: 1 };

interface Golden {
  readonly shape: readonly [number, number];
  readonly rate: readonly [number, number];
  readonly units: readonly number[];
  /** The pumps whose limits R gives, and those held against 0.5 per 1000 h. */
  readonly some: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly judged: readonly number[];
  readonly above: readonly number[];
}
const ASKED = { level: 0.95, benchmark: 0.5 };
const golden = JSON.parse(readFileSync(new URL("full-bayes-golden.json", import.meta.url), "utf8")) as Golden;

checkAgainst(
  {
    quantity: "Rates drawn towards their mean with the doubt about the spread counted in: ten pumps",
    unit: "relative",
    source: "R 4.2.2, nested adaptive quadrature (full-bayes-golden.R)",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 14,
  },
  (compare) => {
    const found = fullBayesRates(PUMPS, PRIOR, ASKED);
    compare("shape", found.shape.mean, golden.shape[0]);
    compare("shape, deviation", found.shape.standardDeviation, golden.shape[1]);
    compare("rate", found.rate.mean, golden.rate[0]);
    compare("rate, deviation", found.rate.standardDeviation, golden.rate[1]);
    for (const [k, mean] of golden.units.entries()) compare(`pump ${k + 1}`, found.units[k]?.mean as number, mean);
  },
);

checkAgainst(
  {
    quantity: "Limits of those rates, and the chance that one lies above 0.5",
    unit: "relative",
    source: "R 4.2.2, nested adaptive quadrature of pgamma, uniroot (full-bayes-golden.R)",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 8,
  },
  (compare) => {
    const { units } = fullBayesRates(PUMPS, PRIOR, ASKED);
    for (const [k, pump] of golden.some.entries()) {
      compare(`pump ${pump}, lower`, units[pump - 1]?.lower as number, golden.lower[k] as number);
      compare(`pump ${pump}, upper`, units[pump - 1]?.upper as number, golden.upper[k] as number);
    }
    for (const [k, pump] of golden.judged.entries())
      compare(`pump ${pump}, above`, units[pump - 1]?.chanceAbove as number, golden.above[k] as number);
  },
);

checkAgainst(
  {
    quantity: "The same pumps in print, to the digits printed",
    unit: "failures per 1000 h",
    source: "George, Makov and Smith 1993, Scand J Stat 20:147 (figures from memory)",
    kind: "published",
    tolerance: 0.006,
    comparisons: 12,
  },
  (compare) => {
    const found = fullBayesRates(PUMPS, PRIOR, ASKED);
    compare("shape", found.shape.mean, 0.7);
    compare("rate", found.rate.mean, 0.93);
    // the two larger ones are printed to one decimal
    const means = [0.06, 0.102, 0.089, 0.116, 0.6, 0.61, 0.89, 0.89];
    for (const [k, mean] of means.entries()) compare(`pump ${k + 1}`, found.units[k]?.mean as number, mean);
    compare("pump 9", Math.round(10 * (found.units[8]?.mean as number)) / 10, 1.6);
    compare("pump 10", Math.round(10 * (found.units[9]?.mean as number)) / 10, 2);
  },
);

test("a prior or units that say nothing are refused", () => {
  expect(() => fullBayesRates(PUMPS, { ...PRIOR, rateRate: 0 }, ASKED)).toThrow("above zero");
  expect(() => fullBayesRates({ count: [0, 0], exposure: [1, 1] }, PRIOR, ASKED)).toThrow("two units and an event");
  expect(() => fullBayesRates(PUMPS, PRIOR, { level: 1 })).toThrow("level is 1");
  expect(fullBayesRates(PUMPS, PRIOR, { level: 0.9 }).units[0]?.chanceAbove).toBeUndefined();
});
