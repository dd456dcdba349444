import { readFileSync } from "node:fs";
import {
  dividedBore,
  ellipticalLumen,
  ENTRANCE_LENGTH,
  ENTRANCE_LOSS,
  type Lumen,
  type LumenAnswer,
} from "../../../src/core/flow/index.ts";
import { millimetre } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

/** Made by elements.py beside this file. */
const elements = JSON.parse(readFileSync(new URL("elements-golden.json", import.meta.url), "utf8")) as {
  lumens: [french: number, wall: number, septum: number, lumens: number, conductance: number][];
  ellipses: [short: number, conductance: number][];
};
const lumen = (answer: LumenAnswer): Lumen => {
  if (answer.kind === "refused") throw new Error(answer.reason);
  return answer;
};
const divided = (size: number, wall: number, septum: number, lumens: number) =>
  lumen(
    dividedBore({
      outsideDiameterMm: millimetre(size / 3),
      wallMm: millimetre(wall),
      septumMm: millimetre(septum),
      lumens,
    }),
  );

checkAgainst(
  {
    quantity: "Conductance of half-moon, third and quarter lumens with walls, 3 to 6 Fr",
    unit: "relative",
    source: "hp finite elements of order 12, SciPy 1.17.1",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 24,
  },
  (compare) => {
    for (const [size, wall, septum, lumens, conductance] of elements.lumens)
      compare(
        `${size} Fr, wall ${wall}, septum ${septum}, ${lumens} lumens`,
        divided(size, wall, septum, lumens).conductance,
        conductance,
      );
  },
);

checkAgainst(
  {
    quantity: "Area, conductance and share of the single lumen, two catheters",
    unit: "relative",
    source: "wedge functions and poles by least squares, NumPy 2.4, agreeing with finite elements to 2e-14",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    for (const [size, lumens, area, conductance, share] of [
      [5, 2, 0.41841, 4.812229e-3, 0.10583],
      [6, 3, 0.44527, 6.242508e-3, 0.05024],
    ] as const) {
      const one = divided(size, 0.25, 0.2, lumens);
      const place = `${size} Fr, ${lumens} lumens`;
      // the areas are printed to five places, which is within 1.2e-5 of their value
      compare(`${place}, area`, Math.round(one.area * 1e5) / 1e5, area);
      compare(`${place}, conductance`, one.conductance, conductance);
      const ofSingle = one.conductance / divided(size, 0.25, 0.2, 1).conductance;
      compare(`${place}, share`, Math.round(ofSingle * 1e5) / 1e5, share);
    }
  },
);

checkAgainst(
  {
    quantity: "Conductance of ellipses",
    unit: "relative",
    source: "hp finite elements of order 10, SciPy 1.17.1",
    kind: "independent",
    tolerance: 1e-10,
    relative: true,
    comparisons: 5,
  },
  (compare) => {
    for (const [short, conductance] of elements.ellipses)
      compare(
        `short over long ${short}`,
        lumen(ellipticalLumen(millimetre(2), millimetre(2 * short))).conductance,
        conductance,
      );
  },
);

/** Made by entrance-loss.py beside this file: cells, K, length over Re d. */
const entrance = JSON.parse(readFileSync(new URL("entrance-loss-golden.json", import.meta.url), "utf8")) as [
  cells: number,
  loss: number,
  length: number,
][];

checkAgainst(
  {
    quantity: "Entrance loss (1 + K)/2 and entrance length of developing flow",
    unit: "relative",
    source: "boundary-layer form marched on three grids, SciPy 1.17.1",
    kind: "independent",
    tolerance: 0.01,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    for (const [cells, loss, length] of entrance) {
      compare(`${cells} cells, loss`, ENTRANCE_LOSS, (1 + loss) / 2);
      compare(`${cells} cells, length`, ENTRANCE_LENGTH, length);
    }
  },
);

checkAgainst(
  {
    quantity: "Entrance loss of developing flow, K",
    unit: "relative",
    source: "Shah RK 1978, J Fluids Eng 100:177: 1.25 (from memory)",
    kind: "published",
    tolerance: 0.01,
    relative: true,
    comparisons: 1,
  },
  (compare) => compare("K", 2 * ENTRANCE_LOSS - 1, 1.25),
);
