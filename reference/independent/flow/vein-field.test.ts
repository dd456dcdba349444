import { readFileSync } from "node:fs";
import {
  CARREAU_BLOOD,
  CARREAU_YASUDA_BLOOD,
  shearThinningFlow,
  slowShare,
  veinField,
  velocityAt,
  wallShear,
  type Wall,
} from "../../../src/core/flow/index.ts";
import { millilitrePerMinute, millimetre } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

const read = (file: string): unknown => JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8"));

type FiveNumbers = [number, number, number, number, number];

checkAgainst(
  {
    quantity: "Velocity beside a catheter at 180 places, centred nearly to touching",
    unit: "open mean",
    source: "mpmath 1.3.0 at 40 digits: bipolar series, and Fourier integral when touching",
    kind: "independent",
    tolerance: 1e-11,
    comparisons: 180,
  },
  (compare) => {
    /** Made by velocity-golden.py beside this file. */
    for (const [ratio, offset, x, y, velocity] of read("velocity-golden.json") as FiveNumbers[])
      compare(`ratio ${ratio}, offset ${offset}, (${x}, ${y})`, velocityAt(veinField(ratio, offset), x, y), velocity);
  },
);

/** Made by elements.py beside this file: ratio, offset, vein least and most, catheter least and most, slow share. */
const { shear } = read("elements-golden.json") as { shear: [...FiveNumbers, number, number][] };

checkAgainst(
  {
    quantity: "Least and most wall shear of vein and catheter",
    unit: "open vein",
    source: "hp finite elements of order 14, SciPy 1.17.1",
    kind: "independent",
    tolerance: 3e-5,
    comparisons: 70,
  },
  (compare) => {
    for (const [ratio, offset, veinLeast, veinMost, catheterLeast, catheterMost] of shear) {
      const field = veinField(ratio, offset);
      const ends = (wall: Wall) => {
        const shears = Array.from({ length: 4001 }, (_, index) => wallShear(field, wall, (Math.PI * index) / 4000));
        return [Math.min(...shears), Math.max(...shears)] as const;
      };
      const place = `ratio ${ratio}, offset ${offset}`;
      const [vein, catheter] = [ends("vein"), ends("catheter")];
      // the elements leave the contact out, so they have no least shear there
      if (offset < 1) {
        compare(`${place}, vein least`, vein[0], veinLeast);
        compare(`${place}, catheter least`, catheter[0], catheterLeast);
      }
      compare(`${place}, vein most`, vein[1], veinMost);
      compare(`${place}, catheter most`, catheter[1], catheterMost);
    }
  },
);

checkAgainst(
  {
    quantity: "Share of the blood slower than a tenth of the open vein's mean",
    unit: "share",
    source: "hp finite elements of order 14, SciPy 1.17.1, cells counted",
    kind: "independent",
    tolerance: 2e-4,
    comparisons: 20,
  },
  (compare) => {
    for (const [ratio, offset, , , , , slow] of shear)
      compare(`ratio ${ratio}, offset ${offset}`, slowShare(veinField(ratio, offset), 0.1).ofBlood, slow);
  },
);

checkAgainst(
  {
    quantity: "Residual flow of shear-thinning blood, centred",
    unit: "relative",
    source: "SciPy 1.17.1, adaptive quadrature and bracketed roots",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 30,
  },
  (compare) => {
    /** Made by shear-thinning-golden.py beside this file. */
    for (const [name, diameter, openFlow, ratio, flow] of read("shear-thinning-golden.json") as [
      string,
      number,
      number,
      number,
      number,
    ][]) {
      const ours = shearThinningFlow(
        { ratio, diameterMm: millimetre(diameter), openFlow: millilitrePerMinute(openFlow) },
        name === "Carreau" ? CARREAU_BLOOD : CARREAU_YASUDA_BLOOD,
      );
      compare(`${name}, ${diameter} mm, ${openFlow} mL/min, ratio ${ratio}`, ours.shearThinning, flow);
    }
  },
);
