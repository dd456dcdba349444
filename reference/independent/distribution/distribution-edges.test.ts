import { readFileSync } from "node:fs";
import {
  fRatioQuantile,
  incompleteBeta,
  incompleteBetaInverse,
  incompleteGammaInverse,
  negativeBinomialAtLeast,
  negativeBinomialAtMost,
  negativeBinomialQuantile,
  normalLowerTail,
  normalQuantile,
  poissonSignalCount,
  studentQuantile,
  type TailName,
} from "../../../src/core/distribution/index.ts";
import { checkShares } from "./check-shares.ts";

type Numbers = readonly number[];
/** Made by distribution-edges-golden.py beside this file. */
const golden = JSON.parse(readFileSync(new URL("distribution-edges-golden.json", import.meta.url), "utf8")) as {
  readonly normal: readonly (readonly [number, number, number])[];
  readonly besideOne: readonly (readonly [
    "gamma" | "beta" | "f" | "student" | "normal",
    Numbers,
    number,
    number,
    number,
  ])[];
  readonly grid: readonly (readonly [string, Numbers, TailName, number, number])[];
  readonly whole: readonly (readonly ["poisson" | "negative binomial", Numbers, number, number])[];
  readonly smallBeta: readonly (readonly (number | null)[])[];
  readonly negativeBinomial: readonly (readonly [number, number, number, number, number, number, number])[];
};

checkShares("Normal lower tail from -37.5 to 8.5 by eighths", 364, (share) => {
  for (const [z, tail, condition] of golden.normal) share(`z ${z}`, normalLowerTail(z), tail, condition);
});

const BESIDE_ONE = {
  gamma: ([a]: Numbers, p: number) => incompleteGammaInverse(a as number, "lower", p),
  beta: ([a, b]: Numbers, p: number) => incompleteBetaInverse(a as number, b as number, "lower", p).odds,
  f: ([above, below]: Numbers, p: number) => fRatioQuantile("lower", p, above as number, below as number),
  student: ([df]: Numbers, p: number) => studentQuantile("lower", p, df as number),
  normal: (_: Numbers, p: number) => normalQuantile(p),
} as const;
// a tail is a double, so beside one its distance to one is exact: nothing is lost and 1e-13 is asked, whatever the condition
checkShares("Quantiles at tails within a millionth of one", 189, (share) => {
  for (const [family, shapes, p, x] of golden.besideOne)
    share(`${family} ${shapes.join(", ")} at 1 - ${1 - p}`, BESIDE_ONE[family](shapes, p), x, 0);
});

const ON_GRID = {
  gamma: ([a]: Numbers, side: TailName, p: number) => incompleteGammaInverse(a as number, side, p),
  beta: ([a, b]: Numbers, side: TailName, p: number) => incompleteBetaInverse(a as number, b as number, side, p).share,
  student: ([df]: Numbers, side: TailName, p: number) => studentQuantile(side, p, df as number),
  f: ([above, below]: Numbers, side: TailName, p: number) => fRatioQuantile(side, p, above as number, below as number),
} as const;
checkShares("Quantiles of the whole grid at tails within a millionth of one", 151, (share) => {
  for (const [part, shapes, side, p, x] of golden.grid) {
    const family = part.replace("between", "").toLowerCase() as keyof typeof ON_GRID;
    share(`${part} ${shapes.join(", ")}, ${side} at 1 - ${1 - p}`, ON_GRID[family](shapes, side, p), x, 0);
  }
});

checkShares("Whole-number quantiles of the Poisson and the negative binomial", 78, (share) => {
  for (const [family, [first, second], bound, count] of golden.whole) {
    const ours =
      family === "poisson"
        ? poissonSignalCount(first as number, bound)
        : negativeBinomialQuantile(bound, first as number, second as number);
    // off by one is off
    share(`${family} ${first}, ${second ?? ""} at ${bound}`, ours === count ? 1 : 2, 1, 0);
  }
});

const SIDES = ["lower", "upper"] as const;
checkShares("Incomplete beta, a shape under one half: tails", 118 * 2, (share) => {
  for (const [a, b, x, ...rest] of golden.smallBeta as readonly Numbers[])
    SIDES.forEach((side, at) => {
      const ours = incompleteBeta(a as number, b as number, x as number, 1 - (x as number))[side];
      share(`${side} at ${a}, ${b}, ${x}`, ours, rest[2 * at] as number, rest[2 * at + 1] as number);
    });
});
const asked = golden.smallBeta.flatMap(([a, b, , ...rest]) =>
  SIDES.flatMap((side, at) =>
    rest[4 + at] === null ? [] : [{ a, b, side, tail: rest[2 * at], x: rest[4 + at], condition: rest[6 + at] }],
  ),
) as readonly { a: number; b: number; side: (typeof SIDES)[number]; tail: number; x: number; condition: number }[];
checkShares("Incomplete beta, a shape under one half: quantiles", 191, (share) => {
  for (const { a, b, side, tail, x, condition } of asked)
    share(`${side} ${tail} of ${a}, ${b}`, incompleteBetaInverse(a, b, side, tail).share, x, condition);
});

checkShares("Negative binomial", 488 * 2, (share) => {
  for (const [k, r, p, most, atMost, least, atLeast] of golden.negativeBinomial) {
    share(`P(X <= ${k}), size ${r}, chance ${p}`, negativeBinomialAtMost(k, r, p), most, atMost);
    share(`P(X >= ${k}), size ${r}, chance ${p}`, negativeBinomialAtLeast(k, r, p), least, atLeast);
  }
});
