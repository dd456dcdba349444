import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { smoothRates } from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";

interface Known {
  readonly count: readonly number[];
  readonly exposure: readonly number[];
  readonly log10: number;
  readonly log: readonly number[];
  readonly error: readonly number[];
  readonly marginal: number;
}
const golden = JSON.parse(readFileSync("reference/independent/shrinkage/smooth-rates-golden.json", "utf8")) as Readonly<
  Record<string, Known>
>;

checkAgainst(
  {
    quantity: "Rates along a row of cells drawn towards their neighbours",
    unit: "log rate and its error",
    source: "R 4.2.2, optim, dense matrices and optimize",
    kind: "independent",
    tolerance: 1e-5,
    comparisons: 2 * (12 + 8 + 10) + 3,
  },
  (compare) => {
    for (const [name, { count, exposure, log, error, marginal }] of Object.entries(golden)) {
      const found = smoothRates({ count, exposure }, 0.95);
      compare(`${name}, marginal`, found.logMarginal, marginal);
      for (const [i, cell] of found.cells.entries()) {
        compare(`${name}, cell ${i + 1}`, Math.log(cell.rate), log[i] as number);
        compare(`${name}, error ${i + 1}`, cell.standardError, error[i] as number);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "How strongly neighbours draw each other, chosen by marginal likelihood",
    unit: "log10 of the weight",
    source: "R 4.2.2, optimize on the same approximation",
    kind: "independent",
    tolerance: 1e-4,
    comparisons: 3,
  },
  (compare) => {
    for (const [name, { count, exposure, log10 }] of Object.entries(golden))
      compare(name, Math.log10(smoothRates({ count, exposure }, 0.95).smoothing), log10);
  },
);

test("one rate that fits all cells is left flat, as the pooled rate", () => {
  const found = smoothRates({ count: [5, 5, 5, 5], exposure: [1000, 1000, 1000, 1000] }, 0.95);
  expect(found.flat).toBe(true);
  for (const { rate } of found.cells) expect(rate).toBeCloseTo(0.005, 9);
});

test("a cell without days has wider limits than those beside it", () => {
  const { cells } = smoothRates({ count: [9, 0, 2, 1], exposure: [900, 0, 1200, 900] }, 0.95);
  expect(cells[1]?.standardError).toBeGreaterThan(cells[0]?.standardError ?? Infinity);
  expect(() => smoothRates({ count: [0, 0], exposure: [1, 1] }, 0.95)).toThrow("0 events");
  expect(() => smoothRates({ count: [1, 0], exposure: [0, 1] }, 0.95)).toThrow("Cell 1 holds 1");
});
