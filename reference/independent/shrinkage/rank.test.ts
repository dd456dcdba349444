import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { incompleteBeta } from "../../../src/core/distribution/index.ts";
import { posterior, rankChances } from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";

interface Known {
  readonly shape: readonly number[];
  readonly rate: readonly number[];
  readonly chances: readonly (readonly number[])[];
}
/** Made by rank-golden.R beside this file. */
const golden = JSON.parse(readFileSync(new URL("rank-golden.json", import.meta.url), "utf8")) as Readonly<
  Record<"pumps" | "near", Known>
>;
const unitsOf = ({ shape, rate }: Known) => shape.map((own, at) => ({ shape: own, rate: rate[at] as number }));

checkAgainst(
  {
    quantity: "Chance of every place of ten pumps and of three units",
    unit: "chance",
    source: "R 4.2.2, integrate over the unit's own density (rank-golden.R)",
    kind: "independent",
    tolerance: 1e-8,
    comparisons: 109,
  },
  (compare) => {
    for (const [name, set] of Object.entries(golden))
      for (const [i, { ofPlace }] of rankChances(unitsOf(set)).entries())
        for (const [k, chance] of ofPlace.entries())
          compare(`${name} ${i + 1}, place ${k + 1}`, chance, set.chances[i]?.[k] as number);
  },
);

checkAgainst(
  {
    quantity: "Expected place of ten pumps",
    unit: "places",
    source: "one more than the sum of chances that another lies above, each an incomplete beta",
    kind: "by-hand",
    tolerance: 1e-9,
    comparisons: 10,
  },
  (compare) => {
    const units = unitsOf(golden.pumps);
    for (const [i, { expected }] of rankChances(units).entries()) {
      const own = units[i] as (typeof units)[number];
      // of gammas X and Y, Y / b above X / a where X / (X + Y) is under a / (a + b)
      const above = units.map((other, at) => {
        const share = own.rate / (own.rate + other.rate);
        return at === i ? 0 : incompleteBeta(own.shape, other.shape, share, 1 - share).lower;
      });
      compare(`pump ${i + 1}`, expected, 1 + above.reduce((a, b) => a + b, 0));
    }
  },
);

test("places of a unit add to one, two alike share them, and one unit has no order", () => {
  const alike = posterior(2, 3, 4, 5);
  const [first] = rankChances([alike, alike]);
  expect(first?.ofPlace.map((chance) => chance.toFixed(9))).toEqual(["0.500000000", "0.500000000"]);
  for (const { ofPlace } of rankChances(unitsOf(golden.near)))
    expect(ofPlace.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10);
  expect(() => rankChances([alike])).toThrow("1 units");
});
