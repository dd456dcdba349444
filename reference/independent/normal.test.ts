import { readFileSync } from "node:fs";
import { judgeRatio } from "../../src/core/catheter/index.ts";
import { normalLowerTail, normalQuantile } from "../../src/core/distribution/index.ts";
import { french, frenchToMillimetre, millimetre } from "../../src/core/quantity/index.ts";
import { checkAgainst } from "../check.ts";

/** Made by normal-golden.py beside this file. */
const golden = JSON.parse(readFileSync(new URL("normal-golden.json", import.meta.url), "utf8")) as {
  tails: [number, number][];
  quantiles: [number, number][];
  chances: [number, number, number, number][];
};

checkAgainst(
  {
    quantity: "Normal lower tail",
    unit: "relative",
    source: "mpmath 1.3.0, 50 digits",
    kind: "independent",
    tolerance: 1e-13,
    relative: true,
    comparisons: 22,
  },
  (compare) => {
    for (const [z, p] of golden.tails) compare(`z ${z}`, normalLowerTail(z), p);
  },
);

checkAgainst(
  {
    quantity: "Normal quantile",
    unit: "relative",
    source: "mpmath 1.3.0, erfinv at 50 digits",
    kind: "independent",
    tolerance: 1e-12,
    relative: true,
    comparisons: 11,
  },
  (compare) => {
    for (const [p, z] of golden.quantiles) compare(`p ${p}`, normalQuantile(p), z);
  },
);

checkAgainst(
  {
    quantity: "Chance of being within 45 per cent",
    unit: "probability",
    source: "SciPy 1.17.1, norm.sf",
    kind: "independent",
    tolerance: 1e-13,
    comparisons: 96,
  },
  (compare) => {
    for (const [size, vein, sd, chance] of golden.chances) {
      const ours = judgeRatio(
        { outsideDiameterMm: frenchToMillimetre(french(size)), diameterMm: millimetre(vein), sdMm: millimetre(sd) },
        { limit: 0.45, chanceMet: 0.9, chanceNotMet: 0.1 },
      );
      compare(`${size} Fr in ${vein} mm, SD ${sd}`, ours.chance, chance);
    }
  },
);
