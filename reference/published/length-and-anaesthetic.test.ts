import { expect, test } from "vitest";
import { lidocaineCeiling, type LidocaineRows } from "../../src/core/anaesthetic/index.ts";
import {
  adultCreaseToCarina,
  childAxillaryToCarina,
  childAxillaryToCentral,
  newbornAxillaryToCava,
  refusedFormulas,
} from "../../src/core/length/index.ts";
import { centimetre, day, kilogram } from "../../src/core/quantity/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";

const policy = planPolicyFrom(defaultPolicy.table);

checkAgainst(
  {
    quantity: "Newborns' length, armpit to cava",
    unit: "cm",
    source: "Pediatr Neonatol 2019, formulas by site",
    kind: "published",
    tolerance: 0.051,
    comparisons: 2,
  },
  (compare) => {
    compare("38 cm", newbornAxillaryToCava(centimetre(38)), 7.8);
    compare("47 cm", newbornAxillaryToCava(centimetre(47)), 9.5);
  },
);

checkAgainst(
  {
    quantity: "Children's length by the simple formula",
    unit: "cm",
    source: "Ota H and others 2022, the rule before the formulas by side",
    kind: "published",
    tolerance: 1e-9,
    comparisons: 1,
  },
  (compare) => compare("100 cm", childAxillaryToCentral(centimetre(100)), 11),
);

checkAgainst(
  {
    quantity: "Children's length, left less right",
    unit: "cm",
    source: "Ota H and others 2022, difference of the two formulas",
    kind: "published",
    tolerance: 0.005,
    comparisons: 1,
  },
  (compare) =>
    compare(
      "100 cm",
      childAxillaryToCarina("left", centimetre(100)) - childAxillaryToCarina("right", centimetre(100)),
      1.68,
    ),
);

checkAgainst(
  {
    quantity: "Adult tape formula from an entry 12 cm above the crease",
    unit: "cm",
    source: "Korean J Anesthesiol 2018, doi 10.4097/kja.d.18.27185, with Mahlon and Yoon 2007 for the junction",
    kind: "published",
    tolerance: 0.05,
    comparisons: 2,
  },
  (compare) => {
    const toCarina = adultCreaseToCarina(centimetre(15), centimetre(20)) - 12;
    compare("to the carina", toCarina, 32.5);
    compare("to the junction", toCarina + policy.carinaToJunctionCm, 36.5);
  },
);

/** What a hospital might set: the figures that emergency texts print for children. */
const childRows: LidocaineRows = { ...policy.lidocaine, childMgPerKg: { plain: 4.5, withAdrenaline: 7 } };

checkAgainst(
  {
    quantity: "Lidocaine ceiling for a child once local policy sets it",
    unit: "mg",
    source: "emergency dosing texts, 4.5 mg/kg plain, 7 with adrenaline, less 30 % under 6 months (worked by hand)",
    kind: "published",
    tolerance: 1e-9,
    comparisons: 4,
  },
  (compare) => {
    const rows: readonly [kg: number, days: number, percent: number, adrenaline: boolean, mg: number][] = [
      [13, 3 * 365, 1, false, 58.5],
      [13, 3 * 365, 1, true, 91],
      [5, 4 * 30, 1, false, 15.75],
      [15, 4 * 365, 2, true, 105],
    ];
    for (const [kg, days, percent, withAdrenaline, mg] of rows) {
      const ceiling = lidocaineCeiling(
        { group: "child", ageDays: day(days), weightKg: kilogram(kg), concentrationPercent: percent, withAdrenaline },
        childRows,
      );
      compare(`${kg} kg${withAdrenaline ? ", adrenaline" : ""}`, ceiling.mostMg ?? Number.NaN, mg);
    }
  },
);

// 5.85, 9.1, 1.575 and 5.25 mL by hand; a text that prints 1.6 for 15.75 mg rounds up, which a ceiling must not.
checkAgainst(
  {
    quantity: "Lidocaine ceiling for a child in millilitres, rounded down",
    unit: "mL",
    source: "milligrams over 10 x per cent, rounded down by hand",
    kind: "by-hand",
    tolerance: 1e-9,
    comparisons: 4,
  },
  (compare) => {
    const rows: readonly [kg: number, days: number, percent: number, adrenaline: boolean, ml: number][] = [
      [13, 3 * 365, 1, false, 5.8],
      [13, 3 * 365, 1, true, 9.1],
      [5, 4 * 30, 1, false, 1.5],
      [15, 4 * 365, 2, true, 5.2],
    ];
    for (const [kg, days, percent, withAdrenaline, ml] of rows) {
      const ceiling = lidocaineCeiling(
        { group: "child", ageDays: day(days), weightKg: kilogram(kg), concentrationPercent: percent, withAdrenaline },
        childRows,
      );
      compare(`${kg} kg${withAdrenaline ? ", adrenaline" : ""}`, ceiling.mostMl ?? Number.NaN, ml);
    }
  },
);

test("without a local row a child gets no number from any of these texts", () => {
  const ceiling = lidocaineCeiling(
    { group: "child", ageDays: day(1000), weightKg: kilogram(13), concentrationPercent: 1, withAdrenaline: false },
    policy.lidocaine,
  );
  expect(ceiling.mostMg).toBeUndefined();
});

test("height over ten is for chest lines, and a newborn's 1,200 g would make 760 cm: both are refused", () => {
  const reasonOf = (code: string) => refusedFormulas.find((one) => one.code === code)?.reason;
  expect(reasonOf("height-over-ten")).toBe("for-chest-lines");
  expect(reasonOf("newborn-hand-by-gram")).toBe("printed-unit-impossible");
  expect(17.98 + 0.618 * 1200).toBeCloseTo(759.58, 2);
});
