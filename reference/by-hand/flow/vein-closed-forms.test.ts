import { expect, test } from "vitest";
import {
  flowPair,
  flowPairBand,
  flowSensitivity,
  ratioForFlow,
  residualFlow,
  trigamma,
} from "../../../src/core/flow/index.ts";
import { french, frenchToMillimetre, millimetre } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

const CATALAN = 0.915965594177219;

checkAgainst(
  {
    quantity: "Residual flow, closed forms at both ends",
    unit: "relative",
    source:
      "1 - k^4 - (1 - k^2)^2/ln(1/k), and with pi^2 and Catalan's constant when touching (Abramowitz 6.4, by hand)",
    kind: "by-hand",
    tolerance: 1e-9,
    relative: true,
    comparisons: 10,
  },
  (compare) => {
    for (const k of [0.1, 0.45, 0.5, 0.9])
      compare(`ratio ${k}, centred`, residualFlow(k, 0), 1 - k ** 4 - (1 - k * k) ** 2 / Math.log(1 / k));
    compare("ratio 1/2, touching", residualFlow(1 / 2, 1), 31 / 16 - Math.PI ** 2 / 6);
    compare("ratio 1/3, touching", residualFlow(1 / 3, 1), 224 / 81 - (2 * Math.PI ** 2) / 9);
    compare("ratio 2/3, touching", residualFlow(2 / 3, 1), 1 - 16 / 81 - (16 / 9) * (Math.PI ** 2 / 6 - 5 / 4));
    compare("ratio 1/5, touching", residualFlow(1 / 5, 1), 1 - 1 / 625 - (4 / 25) * (Math.PI ** 2 + 8 * CATALAN - 16));
    compare("ratio 1/2, offset 1e-8 as centred", residualFlow(0.5, 1e-8), 0.1259840395);
    compare("ratio 1/2, offset 0.999999", residualFlow(0.5, 0.999999), 0.292565622288);
  },
);

checkAgainst(
  {
    quantity: "Trigamma at whole and half numbers",
    unit: "relative",
    source: "Abramowitz M, Stegun IA 1964, 6.4.2 and 6.4.4: pi^2/6, pi^2/2 less sums of inverse squares",
    kind: "by-hand",
    tolerance: 1e-14,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    compare("1", trigamma(1), Math.PI ** 2 / 6);
    compare("1/2", trigamma(0.5), Math.PI ** 2 / 2);
    compare("3/2", trigamma(1.5), Math.PI ** 2 / 2 - 4);
    compare("2", trigamma(2), Math.PI ** 2 / 6 - 1);
  },
);

checkAgainst(
  {
    quantity: "Residual flow at the limits of the ratio",
    unit: "relative",
    source: "limits by hand: 1 without a catheter, (4/3)(1-k)^3(1 + 1.5 offset^2) in a thin gap",
    kind: "by-hand",
    tolerance: 6e-3,
    relative: true,
    comparisons: 8,
  },
  (compare) => {
    compare("no catheter, centred", residualFlow(0, 0), 1);
    compare("no catheter, touching", residualFlow(0, 1), 1);
    compare("ratio 0.001, touching: 1 - (2 pi^2/3) k^2", residualFlow(0.001, 1), 1 - ((2 * Math.PI ** 2) / 3) * 1e-6);
    for (const offset of [0, 0.5, 1])
      compare(`ratio 0.99, offset ${offset}`, residualFlow(0.99, offset), (4 / 3) * 1e-6 * (1 + 1.5 * offset ** 2));
    // past the change to the thin-gap form
    for (const offset of [0.3, 1])
      compare(
        `ratio 0.99999, offset ${offset}`,
        residualFlow(0.99999, offset),
        (4 / 3) * 1e-15 * (1 + 1.5 * offset ** 2),
      );
  },
);

checkAgainst(
  {
    quantity: "Thin gap: ratio 0.99, offset 0.5 over (4/3) 0.01^3",
    unit: "relative",
    source: "bipolar series in 40 digits, mpmath 1.3.0",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 1,
  },
  (compare) => compare("ratio 0.99, offset 0.5", residualFlow(0.99, 0.5) / ((4 / 3) * 0.01 ** 3), 1.36812),
);

checkAgainst(
  {
    quantity: "Catheters in veins: ratio, and flow centred and touching",
    unit: "% of the open vein",
    source: "closed forms at both ends, worked by hand to a tenth",
    kind: "by-hand",
    tolerance: 0.1,
    comparisons: 6,
  },
  (compare) => {
    for (const [size, vein, ratio, centred, touching] of [
      [4, 4, 33.3, 26.8, 57.2],
      [5, 3.7, 45.05, 16.2, 36.9],
    ] as const) {
      const pair = flowPair({ outsideDiameterMm: frenchToMillimetre(french(size)), diameterMm: millimetre(vein) });
      if (pair.kind === "refused") throw new Error(pair.reason);
      compare(`${size} Fr in ${vein} mm, ratio`, pair.ratio * 100, ratio);
      compare(`${size} Fr in ${vein} mm, centred`, pair.centred * 100, centred);
      compare(`${size} Fr in ${vein} mm, touching`, pair.touching * 100, touching);
    }
  },
);

/** Vein in mm; then centred and touching for 2, 2.6, 3, 4, 5, 6 and 7 Fr. */
const flowTable: readonly [vein: number, ...(readonly [centred: number, touching: number])[]][] = [
  [2.5, [34.2, 69.3], [25.5, 54.8], [20.4, 45.4], [10.5, 24.6], [4.1, 10.0], [1.0, 2.4], [0.0, 0.1]],
  [3, [39.7, 77.0], [31.7, 65.3], [26.8, 57.2], [16.7, 37.9], [9.2, 21.7], [4.1, 10.0], [1.3, 3.2]],
  [4, [47.2, 85.8], [40.4, 77.9], [36.2, 72.2], [26.8, 57.2], [19.0, 42.5], [12.6, 29.3], [7.7, 18.3]],
  [5, [52.1, 90.4], [46.2, 84.8], [42.6, 80.7], [34.2, 69.3], [26.8, 57.2], [20.4, 45.4], [15.0, 34.3]],
  [8, [60.3, 96.0], [56.0, 93.4], [53.4, 91.5], [47.2, 85.8], [41.5, 79.3], [36.2, 72.2], [31.3, 64.8]],
  [18, [69.7, 99.1], [67.2, 98.6], [65.6, 98.1], [62.0, 96.8], [58.7, 95.1], [55.6, 93.1], [52.7, 90.9]],
];

checkAgainst(
  {
    quantity: "French in millimetres",
    unit: "mm",
    source: "common practice: three to the millimetre",
    kind: "trade",
    tolerance: 5e-5,
    comparisons: 2,
  },
  (compare) => {
    compare("4 Fr", frenchToMillimetre(french(4)), 1.3333);
    compare("5 Fr", frenchToMillimetre(french(5)), 1.6667);
  },
);

checkAgainst(
  {
    quantity: "Residual flow by French and vein, seven sizes by six veins, centred and touching",
    unit: "% of the open vein",
    source: "table of the closed forms in 40 digits, mpmath 1.3.0, printed to a tenth",
    kind: "independent",
    tolerance: 0.0501,
    comparisons: 84,
  },
  (compare) => {
    for (const [vein, ...row] of flowTable) {
      for (const [column, [centred, touching]] of row.entries()) {
        const size = [2, 2.6, 3, 4, 5, 6, 7][column] as number;
        compare(`${size} Fr in ${vein} mm, centred`, residualFlow(size / 3 / vein, 0) * 100, centred);
        compare(`${size} Fr in ${vein} mm, touching`, residualFlow(size / 3 / vein, 1) * 100, touching);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Ratio that leaves a wanted flow",
    unit: "ratio",
    source: "closed forms inverted by brentq, SciPy 1.17.1",
    kind: "independent",
    tolerance: 1e-5,
    comparisons: 18,
  },
  (compare) => {
    for (const [flow, centred, touching] of [
      [0.9, 0.000045, 0.13677],
      [0.75, 0.01837, 0.234],
      [0.5, 0.14718, 0.37351],
      [1 / 3, 0.2742, 0.47295],
      [0.25, 0.35154, 0.53016],
      [0.16, 0.45321, 0.60395],
      [0.1, 0.54094, 0.66711],
      [0.07, 0.59698, 0.70739],
      [0.05, 0.64299, 0.74048],
    ] as const) {
      compare(`flow ${flow}, centred`, ratioForFlow(flow, 0), centred);
      compare(`flow ${flow}, touching`, ratioForFlow(flow, 1), touching);
    }
  },
);

checkAgainst(
  {
    quantity: "Sensitivity of the residual flow to the ratio",
    unit: "relative",
    source: "derivative of the centred closed form by hand",
    kind: "by-hand",
    tolerance: 1e-8,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    for (const k of [0.02, 0.2, 1 / 3, 0.45, 0.6, 0.9]) {
      const log = Math.log(1 / k);
      const slope = -4 * k ** 3 + (4 * k * (1 - k * k)) / log - (1 - k * k) ** 2 / (k * log * log);
      compare(`ratio ${k}`, flowSensitivity(k, 0), (k * slope) / residualFlow(k, 0));
    }
  },
);

checkAgainst(
  {
    quantity: "Sensitivity of the residual flow to the ratio, touching",
    unit: "per cent per cent",
    source: "closed form in 40 digits, mpmath 1.3.0, printed to two places",
    kind: "independent",
    tolerance: 0.05,
    comparisons: 5,
  },
  (compare) => {
    for (const [k, value] of [
      [0.2, -0.4],
      [1 / 3, -1.06],
      [0.45, -1.97],
      [0.6, -3.99],
      [0.8, -11.5],
    ] as const)
      compare(`ratio ${k}`, flowSensitivity(k, 1), value);
  },
);

test("a catheter that fills the vein is refused, and so is a ratio of one or more", () => {
  const wide = (diameter: number) =>
    flowPair({ outsideDiameterMm: frenchToMillimetre(french(6)), diameterMm: millimetre(diameter) });
  expect(wide(2)).toEqual({ kind: "refused", reason: "the catheter fills the vein" });
  expect(wide(0)).toEqual({ kind: "refused", reason: "a diameter is not above zero" });
  expect(residualFlow(1 - 1e-9, 1)).toBeLessThan(1e-26);
  for (const ratio of [1, 1.2, -0.1, Number.NaN]) expect(() => residualFlow(ratio, 0)).toThrow(RangeError);
  for (const offset of [-0.1, 1.1, Number.NaN]) expect(() => residualFlow(0.5, offset)).toThrow(RangeError);
  const band = flowPairBand(
    { outsideDiameterMm: frenchToMillimetre(french(5)), diameterMm: millimetre(1.9), sdMm: millimetre(0.3) },
    1.96,
  );
  expect([band.narrow.kind, band.measured.kind, band.wide.kind]).toEqual(["refused", "flow", "flow"]);
});
