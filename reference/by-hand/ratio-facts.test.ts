import { expect, test } from "vitest";
import { judgeRatio, leastVein, leastVeinByCaliper } from "../../src/core/catheter/index.ts";
import { french, frenchToMillimetre, millimetre } from "../../src/core/quantity/index.ts";
import { checkAgainst } from "../check.ts";

const LIMITS = [1 / 3, 0.33, 0.365, 0.45, 0.5] as const;
const outside = (size: number) => frenchToMillimetre(french(size));
const ratioOf = (size: number, vein: number) =>
  judgeRatio(
    { outsideDiameterMm: outside(size), diameterMm: millimetre(vein), sdMm: millimetre(0.3) },
    { limit: 0.45, chanceMet: 0.9, chanceNotMet: 0.1 },
  ).ratio;

/** Size; then exact least vein and the caliper's for one third, 33, 36.5, 45 and 50 per cent: (size / 3) / limit. */
const leastVeins: readonly [size: number, ...(readonly [exact: number, caliper: number])[]][] = [
  [1, [1, 1], [1.01, 1.1], [0.913, 1], [0.741, 0.8], [0.667, 0.7]],
  [1.9, [1.9, 1.9], [1.919, 2], [1.735, 1.8], [1.407, 1.5], [1.267, 1.3]],
  [2, [2, 2], [2.02, 2.1], [1.826, 1.9], [1.481, 1.5], [1.333, 1.4]],
  [3, [3, 3], [3.03, 3.1], [2.74, 2.8], [2.222, 2.3], [2, 2]],
  [4, [4, 4], [4.04, 4.1], [3.653, 3.7], [2.963, 3], [2.667, 2.7]],
  [5, [5, 5], [5.051, 5.1], [4.566, 4.6], [3.704, 3.8], [3.333, 3.4]],
  [6, [6, 6], [6.061, 6.1], [5.479, 5.5], [4.444, 4.5], [4, 4]],
  [7, [7, 7], [7.071, 7.1], [6.393, 6.4], [5.185, 5.2], [4.667, 4.7]],
];

checkAgainst(
  {
    quantity: "Least vein by size and limit, exact",
    unit: "mm",
    source: "definition of the ratio, worked by hand to three places",
    kind: "by-hand",
    tolerance: 5.1e-4,
    comparisons: 40,
  },
  (compare) => {
    for (const [size, ...row] of leastVeins) {
      for (const [column, [exact]] of row.entries()) {
        const limit = LIMITS[column] as number;
        compare(`${size} Fr at ${limit}`, leastVein(outside(size), limit), exact);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Least vein on a caliper of tenths, rounded up",
    unit: "mm",
    source: "definition of the ratio, rounded up by hand",
    kind: "by-hand",
    tolerance: 1e-9,
    comparisons: 40,
  },
  (compare) => {
    for (const [size, ...row] of leastVeins) {
      for (const [column, [, caliper]] of row.entries()) {
        const limit = LIMITS[column] as number;
        compare(`${size} Fr at ${limit}`, leastVeinByCaliper(outside(size), limit), caliper);
      }
    }
  },
);

// 16 of the 40: counted apart from this program, in a few lines that round size / 3 / limit to the nearest tenth.
test("the caliper's vein keeps the rule, a tenth less breaks it, and the nearest tenth often would", () => {
  let nearestBreaks = 0;
  for (const [size] of leastVeins) {
    for (const limit of LIMITS) {
      const least = leastVeinByCaliper(outside(size), limit);
      expect(outside(size) / least).toBeLessThanOrEqual(limit + 1e-12);
      expect(outside(size) / (least - 0.1)).toBeGreaterThan(limit);
      const nearest = Math.round((outside(size) / limit) * 10) / 10;
      if (outside(size) / nearest > limit + 1e-12) nearestBreaks += 1;
    }
  }
  expect(nearestBreaks).toBe(16);
});

checkAgainst(
  {
    quantity: "Catheter-to-vein ratio, facts of the trade's tables",
    unit: "%",
    source: "quotients by hand: size / 3 over the vein",
    kind: "by-hand",
    tolerance: 0.051,
    comparisons: 14,
  },
  (compare) => {
    const facts: readonly [size: number, vein: number, percent: number][] = [
      [4, 4.3, 31],
      [5, 4, 41.67],
      [4, 4, 33.33],
      [4, 3, 44.44],
      [4, 2.96, 45.045],
      [3, 2.22, 45.05],
      [3, 2.23, 44.84],
      [5, 3.7, 45.05],
      [6, 4.5, 44.44],
      [3, 3.6, 27.8],
      [4, 3.6, 37],
      [5, 3.6, 46.3],
      [4, 3.3, 40.4],
      [4, 2.6, 51.3],
    ];
    for (const [size, vein, percent] of facts) compare(`${size} Fr in ${vein} mm`, ratioOf(size, vein) * 100, percent);
  },
);

checkAgainst(
  {
    quantity: "Tapered catheter: 5 Fr by name, 6 Fr at a vein of 4.2 mm",
    unit: "%",
    source: "quotients by hand: the true width fails where the name passes",
    kind: "by-hand",
    tolerance: 0.05,
    comparisons: 2,
  },
  (compare) => {
    compare("by its name", ratioOf(5, 4.2) * 100, 39.7);
    compare("at the vein", ratioOf(6, 4.2) * 100, 47.6);
  },
);

test("one third is met by 4 Fr in 4.0 mm, and 33 per cent is not: the two marks differ", () => {
  expect(ratioOf(4, 4)).toBeLessThanOrEqual(1 / 3 + 1e-12);
  expect(ratioOf(4, 4)).toBeGreaterThan(0.33);
});
