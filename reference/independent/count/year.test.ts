import { expect, test } from "vitest";
import type { Figure } from "../../../src/audit/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedYear } from "../../generated-year.ts";
import { golden, report, yearText } from "./counted-year.ts";

test("the year R counted is the year the seed makes", () => {
  expect(generatedYear(618, 900)).toBe(yearText);
});

const figures = new Map(
  report.figures.map((figure) => [
    `${figure.stratum ? `${figure.stratum.by} ${figure.stratum.value}` : "all"} ${figure.measure}`,
    figure,
  ]),
);
const PARTS: Readonly<Record<string, (figure: Figure) => number | undefined>> = {
  events: ({ numerator }) => numerator,
  numerator: ({ numerator }) => numerator,
  days: ({ denominator }) => denominator,
  denominator: ({ denominator }) => denominator,
  rate: ({ value }) => value,
  lower: ({ interval }) => interval.limits?.lower,
  upper: ({ interval }) => interval.limits?.upper,
};
const known = Object.entries(golden).filter(
  ([name]) => /^(all|ward|lumens|ratio band) /.test(name) && name.includes("."),
);
const split = (name: string) => [name.slice(0, name.lastIndexOf(".")), name.slice(name.lastIndexOf(".") + 1)] as const;

checkAgainst(
  {
    quantity: "Every rate and share of an invented year, by ward, lumens and ratio band",
    unit: "relative",
    source: "R 4.2.2, poisson.test, binom.test, on the same file by its own script",
    kind: "independent",
    tolerance: 1e-9,
    comparisons: known.length,
  },
  (compare) => {
    for (const [name, theirs] of known) {
      const [place, part] = split(name);
      const figure = figures.get(place);
      const ours = figure && PARTS[part]?.(figure);
      compare(name, theirs === 0 ? (ours ?? Number.NaN) : (ours ?? Number.NaN) / theirs, theirs === 0 ? 0 : 1);
    }
  },
);
