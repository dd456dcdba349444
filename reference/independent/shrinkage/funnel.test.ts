import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { countAgainstExpected } from "../../../src/core/incidence/index.ts";
import {
  binomialFunnel,
  falseDiscoveryChances,
  falseFlagsExpected,
  overdispersion,
  poissonFunnel,
  targetScore,
  targetWithout,
  widenedScore,
} from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";

/** Made by funnel-golden.R beside this file. */
const golden = JSON.parse(readFileSync(new URL("funnel-golden.json", import.meta.url), "utf8")) as Readonly<
  Record<
    | "count"
    | "exposure"
    | "Pearson"
    | "midP"
    | "root"
    | "phi"
    | "tau"
    | "multiplicative"
    | "additive"
    | "chance"
    | "discovery"
    | "without",
    readonly number[]
  >
>;
const { count, exposure } = golden;
const pooled = count.reduce((a, b) => a + b, 0) / exposure.reduce((a, b) => a + b, 0);
const expected = exposure.map((time) => pooled * time);
const errors = exposure.map((time) => Math.sqrt(pooled / time));
const spreadAt = (winsorise: number, cut?: "order statistic" | "quantile") =>
  overdispersion(golden.Pearson, errors, { winsorise, fewest: 10, ...(cut && { cut }) });

checkAgainst(
  {
    quantity: "Scores of twelve wards against their pooled target",
    unit: "standard errors, chance or rate",
    source: "R 4.2.2, ppois, qnorm, quantile, p.adjust (funnel-golden.R)",
    kind: "independent",
    tolerance: 1e-11,
    comparisons: 12 * 8 + 6,
  },
  (compare) => {
    const raw = { ...spreadAt(0), widen: true };
    const chances = count.map((x, k) => countAgainstExpected(x, expected[k] as number).twoSidedMidP);
    const discovery = falseDiscoveryChances(chances);
    count.forEach((x, k) => {
      const [mean, error] = [expected[k] as number, errors[k] as number];
      const z = targetScore(x, mean, "Pearson");
      compare(`ward ${k + 1}, Pearson`, z, golden.Pearson[k] as number);
      compare(`ward ${k + 1}, mid-P`, targetScore(x, mean, "mid-P"), golden.midP[k] as number);
      compare(`ward ${k + 1}, square root`, targetScore(x, mean, "square root"), golden.root[k] as number);
      const multiplied = widenedScore(z, error, raw, "multiplicative");
      compare(`ward ${k + 1}, multiplicative`, multiplied, golden.multiplicative[k] as number);
      compare(`ward ${k + 1}, additive`, widenedScore(z, error, raw, "additive"), golden.additive[k] as number);
      compare(`ward ${k + 1}, chance`, chances[k] as number, golden.chance[k] as number);
      compare(`ward ${k + 1}, discovery`, discovery[k] as number, golden.discovery[k] as number);
      compare(`ward ${k + 1}, the others`, targetWithout(count, exposure, k), golden.without[k] as number);
    });
    const three = [spreadAt(0), spreadAt(0.1, "order statistic"), spreadAt(0.1, "quantile")];
    for (const [k, { dispersion, between }] of three.entries()) {
      compare(`phi ${k + 1}`, dispersion, golden.phi[k] as number);
      compare(`tau squared ${k + 1}`, between, golden.tau[k] as number);
    }
  },
);

checkAgainst(
  {
    quantity: "One ward of twelve: 20 events against 10.632967",
    unit: "relative",
    source: "R 4.2.2, ppois, qnorm and p.adjust; metafor 3.8-1 for the spread",
    kind: "independent",
    tolerance: 2e-8,
    relative: true,
    comparisons: 7,
  },
  (compare) => {
    compare("Pearson", targetScore(20, 10.632967, "Pearson"), 2.87259774);
    compare("mid-P", targetScore(20, 10.632967, "mid-P"), 2.5826149);
    compare("square root", targetScore(20, 10.632967, "square root"), 2.42262579);
    // 5900 days at 1.8021978 per 1000
    compare("expected", 5.9 * 1.8021978, 10.632967);
    const chance = countAgainstExpected(20, 5.9 * 1.8021978).twoSidedMidP;
    compare("chance", Math.round(chance * 1e9) / 1e9, 0.009805471);
    compare(
      "among twelve",
      Math.round((falseDiscoveryChances([chance, ...Array<number>(11).fill(1)])[0] ?? 0) * 1e8) / 1e8,
      0.11766565,
    );
    // twelve raw scores of mean square 1.81271769 have 12 times that as their sum
    const even = overdispersion(Array<number>(12).fill(Math.sqrt(1.81271769)), Array<number>(12).fill(1), {
      winsorise: 0,
      fewest: 10,
    });
    compare("sum of squares", 12 * even.dispersion, 21.7526122);
  },
);

checkAgainst(
  {
    quantity: "Spread between twelve wards, and one ward's score once it is allowed for",
    unit: "relative",
    source: "R 4.2.2, metafor 3.8-1 (DerSimonian and Laird); Spiegelhalter 2005 for the score",
    kind: "independent",
    tolerance: 2e-8,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    // only the sum w - sum w^2 / sum w of the wards enters: equal errors that give it stand for the twelve
    const perWard = (21.7526122 - 11) / 0.146777402 / 11;
    const equal = Array<number>(12).fill(1 / Math.sqrt(perWard));
    const among = (phi: number) =>
      overdispersion(Array<number>(12).fill(Math.sqrt(phi)), equal, { winsorise: 0, fewest: 10 });
    compare("tau squared, raw", among(1.81271769).between, 0.146777402);
    // the score of the ward is widened by the spread that is left after winsorising
    const winsorised = { ...among(1.30220701), widen: true };
    const score = targetScore(20, 10.632967, "Pearson");
    compare("additive", widenedScore(score, 1 / Math.sqrt(10.632967), winsorised, "additive"), 2.22188037);
  },
);

test("a mean square of 1.30 or 1.813 among twelve is not enough to widen, and flags are to be expected by chance", () => {
  const among = (phi: number) =>
    overdispersion(Array<number>(12).fill(Math.sqrt(phi)), Array<number>(12).fill(1), { winsorise: 0, fewest: 10 })
      .widen;
  expect([1.30220701, 1.81271769, 1.83].map(among)).toEqual([false, false, true]);
  expect(falseFlagsExpected(12, 0.025, 0.975)).toBeCloseTo(0.6, 12);
  expect(falseFlagsExpected(12, 0.001, 0.999)).toBeCloseTo(0.024, 12);
});

test("a limit that would lie below zero is cut at zero", () => {
  // the formula gives -0.00831096 of 100 at 0.05, and -0.170317 times 5 expected
  expect(binomialFunnel(100, 0.05, [0.001])).toEqual([0]);
  expect(poissonFunnel(5, [0.001])).toEqual([0]);
});

test("what cannot be scored is refused in a sentence", () => {
  const spread = { dispersion: 2, threshold: 1.5, widen: false, between: 1 };
  expect(widenedScore(3, 1, spread, "additive")).toBe(3);
  expect(() => widenedScore(3, 0, spread, "additive")).toThrow("standard error is 0");
  expect(() => targetScore(3, 0, "Pearson")).toThrow("0 events are expected");
  expect(() => targetScore(2.5, 1, "mid-P")).toThrow("There are 2.5 events");
  expect(() => falseDiscoveryChances([0.1, 2])).toThrow("A chance is 2");
  expect(() => falseFlagsExpected(3, 0.9, 0.1)).toThrow("rising shares");
  expect(() => targetWithout([1], [2], 0)).toThrow("Unit 0 of 1");
});
