import { judgeRatio } from "../../src/core/catheter/index.ts";
import { thirdsOf } from "../../src/core/arm/index.ts";
import { lidocaineCeiling } from "../../src/core/anaesthetic/index.ts";
import { largestFrenchFor } from "../../src/core/line-plan/index.ts";
import { adultCreaseToCarina, childAxillaryToCarina } from "../../src/core/length/index.ts";
import {
  centimetre,
  day,
  french,
  frenchToMillimetre,
  inch,
  inchToCentimetre,
  kilogram,
  millimetre,
} from "../../src/core/quantity/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";

const policy = planPolicyFrom(defaultPolicy.table);

checkAgainst(
  {
    quantity: "Thirds of the arm",
    unit: "cm",
    source: "common practice, no source",
    kind: "trade",
    tolerance: 1e-12,
    comparisons: 12,
  },
  (compare) => {
    const arms: [number, number, number, number][] = [
      [21, 7, 10.5, 14],
      [18, 6, 9, 12],
      [15, 5, 7.5, 10],
      [12, 4, 6, 8],
    ];
    for (const [length, middle, preferred, upper] of arms) {
      const thirds = thirdsOf(centimetre(length));
      compare(`${length} cm, L/3`, thirds.middleFromCm, middle);
      compare(`${length} cm, L/2`, thirds.preferredFromCm, preferred);
      compare(`${length} cm, 2L/3`, thirds.upperFromCm, upper);
    }
  },
);

checkAgainst(
  {
    quantity: "Largest French expected by weight",
    unit: "Fr",
    source: "common practice, no source (bands)",
    kind: "trade",
    tolerance: 0,
    comparisons: 6,
  },
  (compare) => {
    const bands: [number, number][] = [
      [3, 3],
      [10, 3],
      [10.1, 4],
      [50, 4],
      [50.1, 5],
      [120, 5],
    ];
    for (const [kg, size] of bands) compare(`${kg} kg`, largestFrenchFor(kilogram(kg), policy), size);
  },
);

checkAgainst(
  {
    quantity: "Catheter-to-vein ratio",
    unit: "%",
    source: "definition, Sharp R and others 2015, Int J Nurs Stud 52:677; quotients by hand",
    kind: "by-hand",
    tolerance: 0.006,
    comparisons: 9,
  },
  (compare) => {
    const rows: [number, number, number][] = [
      [5, 4, 41.67],
      [4, 4, 33.33],
      [4, 3, 44.44],
      [4, 2.96, 45.045],
      [3, 2.22, 45.05],
      [5, 3.7, 45.05],
      [5, 3.8, 43.86],
      [6, 4.4, 45.45],
      [1.9, 1.4, 45.24],
    ];
    for (const [size, vein, percent] of rows) {
      const { ratio } = judgeRatio(
        { outsideDiameterMm: frenchToMillimetre(french(size)), diameterMm: millimetre(vein), sdMm: millimetre(0.3) },
        { limit: 0.45, chanceMet: 0.9, chanceNotMet: 0.1 },
      );
      compare(`${size} Fr in ${vein} mm`, ratio * 100, percent);
    }
  },
);

checkAgainst(
  {
    quantity: "Children's length, axillary point to carina",
    unit: "cm",
    source: "Ota H and others 2022, formulas by height and side",
    kind: "published",
    tolerance: 0.05,
    comparisons: 4,
  },
  (compare) => {
    compare("75 cm, right", childAxillaryToCarina("right", centimetre(75)), 9.4);
    compare("75 cm, left", childAxillaryToCarina("left", centimetre(75)), 10.6);
    compare("100 cm, right", childAxillaryToCarina("right", centimetre(100)), 12.03);
    compare("100 cm, left", childAxillaryToCarina("left", centimetre(100)), 13.71);
  },
);

checkAgainst(
  {
    quantity: "Adult tape formula, crease to carina",
    unit: "cm",
    source: "Korean J Anesthesiol 2018, doi 10.4097/kja.d.18.27185",
    kind: "published",
    tolerance: 1e-9,
    comparisons: 1,
  },
  (compare) => compare("clavicle 15, sternum 20", adultCreaseToCarina(centimetre(15), centimetre(20)), 44.5),
);

checkAgainst(
  {
    quantity: "Lidocaine ceiling",
    unit: "mL",
    source: "lidocaine label text, 4.5 mg/kg to 300 mg plain, 7 mg/kg to 500 mg with adrenaline",
    kind: "published",
    tolerance: 1e-9,
    comparisons: 6,
  },
  (compare) => {
    const rows: [kg: number, percent: number, adrenaline: boolean, ml: number][] = [
      [70, 1, false, 30],
      [70, 2, false, 15],
      [50, 1, false, 22.5],
      [80, 1, true, 50],
      [66, 1, false, 29.7],
      [47, 2, true, 16.4],
    ];
    for (const [kg, percent, withAdrenaline, ml] of rows) {
      const ceiling = lidocaineCeiling(
        { group: "adult", ageDays: day(18_262), weightKg: kilogram(kg), concentrationPercent: percent, withAdrenaline },
        policy.lidocaine,
      );
      compare(`${kg} kg, ${percent} %${withAdrenaline ? ", adrenaline" : ""}`, ceiling.mostMl ?? Number.NaN, ml);
    }
  },
);

checkAgainst(
  {
    quantity: "Inch in millimetres",
    unit: "mm",
    source: "international yard and pound agreement 1959",
    kind: "published",
    tolerance: 5e-4,
    comparisons: 2,
  },
  (compare) => {
    compare("0.018 in", inchToCentimetre(inch(0.018)) * 10, 0.4572);
    compare("0.035 in", inchToCentimetre(inch(0.035)) * 10, 0.889);
  },
);
