import { readFileSync } from "node:fs";
import {
  binomialAtLeast,
  binomialAtMost,
  binomialChance,
  chiSquareQuantile,
  chiSquareTail,
  fRatioQuantile,
  fRatioTail,
  gammaFunction,
  incompleteBeta,
  incompleteBetaInverse,
  incompleteGamma,
  incompleteGammaInverse,
  logGamma,
  normalQuantile,
  poissonAtLeast,
  poissonAtMost,
  poissonChance,
  studentQuantile,
  studentTail,
  type TailName,
} from "../../../src/core/distribution/index.ts";
import { checkShares } from "./check-shares.ts";

type Row = readonly (number | null)[];

/** Made by distribution-golden.py beside this file. */
const golden = JSON.parse(readFileSync(new URL("distribution-golden.json", import.meta.url), "utf8")) as Readonly<
  Record<
    | "logGamma"
    | "gamma"
    | "beta"
    | "poisson"
    | "binomial"
    | "student"
    | "f"
    | "normal"
    | "betweenGamma"
    | "betweenBeta",
    readonly Row[]
  >
>;

const SIDES = ["lower", "upper"] as const;
/** A family whose rows are [...point, x, lower, condition, upper, condition, x at lower, x at upper, conditions]. */
function checkFamily(
  name: string,
  rows: readonly Row[],
  points: number,
  quantiles: number,
  width: number,
  tail: (side: TailName, point: readonly number[]) => number,
  quantile: (side: TailName, value: number, point: readonly number[]) => number,
): void {
  checkShares(`${name}: tails`, points * 2, (share) => {
    for (const row of rows) {
      const point = row.slice(0, width) as number[];
      SIDES.forEach((side, at) => {
        const [theirs, condition] = row.slice(width + 2 * at) as number[];
        share(`${side} at ${point.join(", ")}`, tail(side, point), theirs as number, condition as number);
      });
    }
  });
  checkShares(`${name}: quantiles`, quantiles, (share) => {
    for (const row of rows) {
      const point = row.slice(0, width) as number[];
      SIDES.forEach((side, at) => {
        const theirs = row[width + 4 + at];
        if (theirs === null || theirs === undefined) return; // within 1e-6 of one: see distribution-edges.test.ts; at one itself there is none
        const value = row[width + 2 * at] as number;
        const place = `${side} ${value} of ${point.slice(0, -1).join(", ")}`;
        share(place, quantile(side, value, point), theirs, row[width + 6 + at] as number);
      });
    }
  });
}

checkShares("Log-gamma", 27, (share) => {
  for (const [x, value, condition] of golden.logGamma as number[][])
    share(`${x}`, logGamma(x as number), value as number, condition as number);
});
checkShares("Gamma function", 22, (share) => {
  for (const [x, , , gamma, condition] of golden.logGamma)
    if (gamma !== null) share(`${x}`, gammaFunction(x as number), gamma as number, condition as number);
});

checkShares("Normal quantile to 1e-300", 23, (share) => {
  for (const [p, z, condition] of golden.normal as number[][])
    share(`${p}`, normalQuantile(p as number), z as number, condition as number);
});

/** A tail and its inverse, on the grid and between its points. */
const GAMMA = [
  (side: TailName, [a, x]: readonly number[]) => incompleteGamma(a as number, x as number)[side],
  (side: TailName, value: number, [a]: readonly number[]) => incompleteGammaInverse(a as number, side, value),
] as const;
const BETA = [
  (side: TailName, [a, b, x]: readonly number[]) =>
    incompleteBeta(a as number, b as number, x as number, 1 - (x as number))[side],
  (side: TailName, value: number, [a, b]: readonly number[]) =>
    incompleteBetaInverse(a as number, b as number, side, value).share,
] as const;

checkFamily("Incomplete gamma", golden.gamma, 408, 597, 2, ...GAMMA);

checkFamily("Incomplete gamma between the grid points", golden.betweenGamma, 150, 205, 2, ...GAMMA);

checkFamily("Incomplete beta between the grid points", golden.betweenBeta, 150, 152, 3, ...BETA);

checkFamily(
  "Chi-square",
  golden.gamma,
  408,
  597,
  2,
  (side, [a, x]) => chiSquareTail(side, 2 * (x as number), 2 * (a as number)),
  (side, value, [a]) => chiSquareQuantile(side, value, 2 * (a as number)) / 2,
);

checkFamily("Incomplete beta", golden.beta, 323, 474, 3, ...BETA);

checkFamily(
  "Student t",
  golden.student,
  84,
  143,
  2,
  (side, [df, t]) => studentTail(side, t as number, df as number),
  (side, value, [df]) => studentQuantile(side, value, df as number),
);

checkFamily(
  "F ratio",
  golden.f,
  91,
  159,
  3,
  (side, [d1, d2, f]) => fRatioTail(side, f as number, d1 as number, d2 as number),
  (side, value, [d1, d2]) => fRatioQuantile(side, value, d1 as number, d2 as number),
);

checkShares("Poisson", 155 * 3, (share) => {
  for (const [k, m, term, atTerm, most, atMost, least, atLeast] of golden.poisson as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ][]) {
    share(`P(X = ${k}), mean ${m}`, poissonChance(k, m), term, atTerm);
    share(`P(X <= ${k}), mean ${m}`, poissonAtMost(k, m), most, atMost);
    share(`P(X >= ${k}), mean ${m}`, poissonAtLeast(k, m), least, atLeast);
  }
});

checkShares("Binomial", 128 * 3, (share) => {
  for (const [k, n, p, term, atTerm, most, atMost, least, atLeast] of golden.binomial as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ][]) {
    share(`P(X = ${k}) of ${n}, chance ${p}`, binomialChance(k, n, p), term, atTerm);
    share(`P(X <= ${k}) of ${n}, chance ${p}`, binomialAtMost(k, n, p), most, atMost);
    share(`P(X >= ${k}) of ${n}, chance ${p}`, binomialAtLeast(k, n, p), least, atLeast);
  }
});
