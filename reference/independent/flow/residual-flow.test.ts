import { readFileSync } from "node:fs";
import { flowSensitivity, residualFlow } from "../../../src/core/flow/index.ts";
import { checkAgainst } from "../../check.ts";

type Row = readonly [ratio: number, offset: number, flow: number];
const read = (file: string): unknown => JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8"));

/** Made by residual-flow-golden.py beside this file. */
const golden = read("residual-flow-golden.json") as {
  grid: Row[];
  scattered: Row[];
  beyond: Row[];
  slopes: [ratio: number, offset: number, slope: number][];
};
/** Made by elements.py beside this file. */
const elements = read("elements-golden.json") as { flow: Row[] };

const said = (offset: number) =>
  offset === 1 ? "touching" : offset > 0.99 ? `offset 1 - ${(1 - offset).toPrecision(3)}` : `offset ${offset}`;
const compareAll = (rows: readonly Row[]) => (compare: (place: string, ours: number, theirs: number) => void) => {
  for (const [ratio, offset, flow] of rows)
    compare(`ratio ${ratio}, ${said(offset)}`, residualFlow(ratio, offset), flow);
};

checkAgainst(
  {
    quantity: "Residual flow, 13 ratios to 0.97 by 23 offsets, to 1 - 1e-12 and touching",
    unit: "relative",
    source: "mpmath 1.3.0 at 50 digits: image sum and bipolar series",
    kind: "independent",
    tolerance: 1e-10,
    relative: true,
    comparisons: 299,
  },
  compareAll(golden.grid),
);

checkAgainst(
  {
    quantity: "Residual flow, 300 random ratios 0.02 to 0.97 and offsets 0 to 1",
    unit: "relative",
    source: "mpmath 1.3.0 at 50 digits: image sum and bipolar series",
    kind: "independent",
    tolerance: 1e-10,
    relative: true,
    comparisons: 300,
  },
  compareAll(golden.scattered),
);

checkAgainst(
  {
    quantity: "Residual flow, 8 ratios by 7 offsets",
    unit: "relative",
    source: "hp finite elements of order 14 in polar coordinates, SciPy 1.17.1",
    kind: "independent",
    tolerance: 1e-12,
    relative: true,
    comparisons: 56,
  },
  compareAll(elements.flow),
);

checkAgainst(
  {
    quantity: "Residual flow of hairs and of catheters that all but fill the vein",
    unit: "relative",
    source: "mpmath 1.3.0 at 50 digits: image sum and bipolar series",
    kind: "independent",
    tolerance: 3e-8,
    relative: true,
    comparisons: 40,
  },
  compareAll(golden.beyond),
);

checkAgainst(
  {
    quantity: "Sensitivity of the residual flow to the ratio, off centre",
    unit: "relative",
    source: "mpmath 1.3.0 at 50 digits, differences of 1e-12",
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 20,
  },
  (compare) => {
    for (const [ratio, offset, slope] of golden.slopes)
      compare(`ratio ${ratio}, offset ${offset}`, flowSensitivity(ratio, offset), slope);
  },
);
