/** Figures of methods the program does not use, so that the difference from its own is on record. */
import { expect, test } from "vitest";
import { normalQuantile, poissonChance } from "../../../src/core/distribution/index.ts";
import { countLimits, incidenceRate, rateRatio, type EventsInDays } from "../../../src/core/incidence/index.ts";
import { day } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

const z = normalQuantile(0.975);
const seen = (events: number, days: number): EventsInDays<"exact"> => ({ events, days: day(days), clock: "exact" });

/** Byar's cube with x + 1/2 in both limits, as one R package has it; Breslow and Day have x below and x + 1 above. */
const halfAdded = (x: number, side: -1 | 1) => {
  const y = x + 0.5;
  return y * (1 - 1 / (9 * y) + (side * z) / (3 * Math.sqrt(y))) ** 3;
};
/** The chance that x -+ z sqrt x holds its mean. */
const waldCoverage = (mean: number) =>
  Array.from({ length: 81 }, (_, x) => (Math.abs(x - mean) <= z * Math.sqrt(x) ? poissonChance(x, mean) : 0)).reduce(
    (sum, chance) => sum + chance,
    0,
  );
/** The ratio whose mid-P is one half: limits of a level of nothing. */
function medianUnbiased(): number {
  const ratio = rateRatio(seen(41, 28_010), seen(15, 19_017), 1e-12, "mid-P");
  return typeof ratio === "string" ? Number.NaN : ratio.lower;
}

checkAgainst(
  {
    quantity: "What other limits and points would say, and a register of 94 infections",
    unit: "relative",
    source: "R 4.2.2: epitools 0.5-10.1, qnorm, dpois, poisson.test; Gao and others 2015 (counts only)",
    kind: "independent",
    tolerance: 2e-7,
    relative: true,
    comparisons: 9,
  },
  (compare) => {
    compare("10 events, Byar with a half added, lower", halfAdded(10, -1), 5.133753);
    compare("10 events, Byar with a half added, upper", halfAdded(10, 1), 17.740482);
    compare("3.07, Wald holds", Math.round(1e6 * waldCoverage(3.07)) / 1e6, 0.806662);
    compare("10.3, Wald holds", Math.round(1e6 * waldCoverage(10.3)) / 1e6, 0.933862);
    // epitools prints 1.84297656, where its root finder stopped; R's uniroot at a tolerance of 1e-15 goes on to this
    compare("41 and 15, median-unbiased", medianUnbiased(), 1.8429670585);
    compare("41 and 15, median-unbiased, to the digits of both", Math.round(1e4 * medianUnbiased()) / 1e4, 1.843);
    const gao = incidenceRate(seen(94, 96_307), 0.95, "exact");
    compare("94 in 96,307 days", gao.perThousand, 0.976045354959);
    compare("94 in 96,307 days, lower", gao.lower, 0.788743999907);
    compare("94 in 96,307 days, upper", gao.upper, 1.194432322976);
  },
);

test("the program's Byar limits and rate ratio are not those", () => {
  const byar = countLimits(10, 0.95, "Byar");
  expect(byar.lower).toBeLessThan(halfAdded(10, -1) - 0.3);
  expect(byar.upper).toBeGreaterThan(halfAdded(10, 1) + 0.6);
  expect(rateRatio(seen(41, 28_010), seen(15, 19_017), 0.95, "mid-P")).toMatchObject({
    ratio: expect.closeTo(1.85575866, 8) as number,
  });
});
