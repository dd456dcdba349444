import { parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import { bagOsmolarity } from "../../src/core/infusate/index.ts";
import {
  creatinineInBoth,
  filtrationOfAdult,
  filtrationOfChild,
  filtrationTrend,
  kidneyStage,
  KIDNEY_STAGES,
} from "../../src/core/kidney/index.ts";
import { centimetre, milligramPerDecilitre, millilitrePerMinute173 } from "../../src/core/quantity/index.ts";
import { checkAgainst } from "../check.ts";

checkAgainst(
  {
    quantity: "Filtration of adults",
    unit: "mL/min/1.73 m2",
    source: "Inker LA and others 2021, N Engl J Med 385:1737: the printed equation worked by hand, values from memory",
    kind: "published",
    tolerance: 0.05,
    comparisons: 4,
  },
  (compare) => {
    const of = (mgPerDl: number, years: number, sex: "male" | "female") =>
      filtrationOfAdult(milligramPerDecilitre(mgPerDl), years, sex);
    compare("man of 40 at 1.0", of(1, 40, "male"), 97.6);
    compare("man of 70 at 1.7", of(1.7, 70, "male"), 42.8);
    compare("woman of 58 at 1.9", of(1.9, 58, "female"), 30.2);
    compare("woman of 40 at 0.7", of(0.7, 40, "female"), 112.1);
  },
);

checkAgainst(
  {
    quantity: "Filtration of adults, in logarithms",
    unit: "mL/min/1.73 m2",
    source: "the same equation written as a sum of logarithms",
    kind: "by-hand",
    tolerance: 1e-12,
    relative: true,
    comparisons: 2 * 5 * 4,
  },
  (compare) => {
    for (const sex of ["female", "male"] as const)
      for (const value of [0.4, 0.7, 0.9, 1.9, 8])
        for (const years of [18, 40, 70, 95]) {
          const k = sex === "female" ? 0.7 : 0.9;
          const slope = value < k ? (sex === "female" ? -0.241 : -0.302) : -1.2;
          const log =
            Math.log(142) +
            slope * Math.log(value / k) +
            years * Math.log(0.9938) +
            (sex === "female" ? Math.log(1.012) : 0);
          compare(
            `${sex} ${value} ${years}`,
            filtrationOfAdult(milligramPerDecilitre(value), years, sex),
            Math.exp(log),
          );
        }
  },
);

checkAgainst(
  {
    quantity: "Filtration of children",
    unit: "mL/min/1.73 m2",
    source: "Schwartz GJ and others 2009, J Am Soc Nephrol 20:629: 0.413 height / creatinine",
    kind: "published",
    tolerance: 0.05,
    comparisons: 1,
  },
  (compare) => compare("110 cm at 1.2", filtrationOfChild(milligramPerDecilitre(1.2), centimetre(110)), 37.9),
);

checkAgainst(
  {
    quantity: "Stages of kidney disease",
    unit: "stage",
    source: "KDIGO 2012, table 5, from memory",
    kind: "published",
    tolerance: 0,
    comparisons: 10,
  },
  (compare) => {
    const expected: [number, string][] = [
      [90, "G1"],
      [89.9, "G2"],
      [60, "G2"],
      [59.9, "G3a"],
      [45, "G3a"],
      [44.9, "G3b"],
      [30, "G3b"],
      [29.9, "G4"],
      [15, "G4"],
      [14.9, "G5"],
    ];
    for (const [value, stage] of expected)
      compare(
        String(value),
        KIDNEY_STAGES.indexOf(kidneyStage(millilitrePerMinute173(value))),
        KIDNEY_STAGES.findIndex((one) => one === stage),
      );
  },
);

checkAgainst(
  {
    quantity: "Creatinine in both units",
    unit: "umol/L",
    source: "molar mass of creatinine 113.12 g/mol",
    kind: "by-hand",
    tolerance: 0.05,
    comparisons: 2,
  },
  (compare) => {
    compare("1.9 mg/dL", creatinineInBoth({ value: 1.9, unit: "mg/dL" }).umolPerL, (1.9e-2 / 113.12) * 1e6);
    compare("1 mg/dL", creatinineInBoth({ value: 1, unit: "mg/dL" }).umolPerL, 88.4);
  },
);

checkAgainst(
  {
    quantity: "Change of filtration a year",
    unit: "mL/min/1.73 m2 a year",
    source: "three points of a straight line, and least squares on 1, 2, 4 at 0, 1, 2 years by hand",
    kind: "by-hand",
    tolerance: 0.01,
    comparisons: 2,
  },
  (compare) => {
    const at = (on: string, value: number) => ({
      on: parseCivilDate(on) as CivilDate,
      filtration: millilitrePerMinute173(value),
    });
    const line = filtrationTrend([at("2024-01-01", 57), at("2025-01-01", 48), at("2026-01-01", 39)]);
    compare("a line falling 9", line ?? Number.NaN, -9);
    const curve = filtrationTrend([at("2023-01-01", 1), at("2024-01-01", 2), at("2025-01-01", 4)]);
    compare("1, 2, 4", curve ?? Number.NaN, 1.5);
  },
);

checkAgainst(
  {
    quantity: "Osmolarity of a compounded bag",
    unit: "mOsm/L",
    source: "additive rule of parenteral nutrition (from memory) and a printed table of infusion fluids: 560",
    kind: "published",
    tolerance: 2.5,
    comparisons: 2,
  },
  (compare) => {
    const bag = (parts: Partial<Parameters<typeof bagOsmolarity>[0]>) =>
      bagOsmolarity({
        volumeMl: 1000,
        glucoseG: 0,
        aminoAcidG: 0,
        monovalentSaltsMmol: 0,
        otherIonsMmol: 0,
        lipidG: 0,
        lipidMosmPerG: 0,
        ...parts,
      }) as number;
    compare(
      "40 g amino acid, 100 g glucose, 50 mmol salts",
      bag({ aminoAcidG: 40, glucoseG: 100, monovalentSaltsMmol: 50 }),
      1000,
    );
    compare("glucose 5 % in sodium chloride 0.9 %", bag({ glucoseG: 50, monovalentSaltsMmol: 154 }), 560);
  },
);
