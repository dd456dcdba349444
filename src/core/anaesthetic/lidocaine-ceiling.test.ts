import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { missing } from "../missing/index.ts";
import { day, kilogram } from "../quantity/index.ts";
import { lidocaineCeiling, type AnaestheticEntry, type LidocaineRows } from "./index.ts";

const rows: LidocaineRows = {
  plain: { mgPerKg: 4.5, mostMg: 300 },
  withAdrenaline: { mgPerKg: 7, mostMg: 500 },
  childMgPerKg: { plain: 0, withAdrenaline: 0 },
  infantUnderDays: day(183),
  infantShare: 0.7,
};
const childRows: LidocaineRows = { ...rows, childMgPerKg: { plain: 4.5, withAdrenaline: 7 } };
const adult: AnaestheticEntry = {
  group: "adult",
  ageDays: day(50 * 365),
  weightKg: kilogram(50),
  concentrationPercent: 1,
  withAdrenaline: false,
};
const child: AnaestheticEntry = { ...adult, group: "child", ageDays: day(4 * 365), weightKg: kilogram(13) };
const codes = (entry: AnaestheticEntry, policy = rows) =>
  lidocaineCeiling(entry, policy).findings.map(({ code }) => code);

describe("the ceiling", () => {
  test("skin and tunnel share one ceiling, by weight up to the most", () => {
    expect(lidocaineCeiling(adult, rows)).toMatchObject({ mostMg: 225, mostMl: 22.5, findings: [] });
    expect(lidocaineCeiling({ ...adult, weightKg: kilogram(70) }, rows).mostMg).toBe(300);
    expect(lidocaineCeiling({ ...adult, weightKg: kilogram(80), withAdrenaline: true }, rows).mostMg).toBe(500);
  });

  test("the millilitres never hold more than the milligrams, and lose less than a tenth", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.constantFrom(0.5, 1, 1.5, 2, 4),
        fc.boolean(),
        (kg, concentrationPercent, withAdrenaline) => {
          const entry = { ...adult, weightKg: kilogram(kg), concentrationPercent, withAdrenaline };
          const { mostMg, mostMl } = lidocaineCeiling(entry, rows);
          const exact = (mostMg as number) / (10 * concentrationPercent);
          expect(mostMl as number).toBeLessThanOrEqual(exact + 1e-9);
          expect(mostMl as number).toBeGreaterThan(exact - 0.1 - 1e-9);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });

  test("missing weight, concentration, adrenaline or age is a question, and no number", () => {
    for (const field of ["weightKg", "concentrationPercent", "withAdrenaline"] as const) {
      expect(codes({ ...adult, [field]: missing("not asked") }), field).toEqual(["anaesthetic-not-known"]);
      expect(lidocaineCeiling({ ...adult, [field]: missing("not asked") }, rows).mostMl).toBeUndefined();
    }
    expect(codes({ ...adult, ageDays: missing("not asked") })).toEqual(["anaesthetic-age-missing"]);
    expect(codes({ ...adult, group: undefined })).toEqual(["anaesthetic-age-missing"]);
    expect(codes({ ...adult, concentrationPercent: 0 })).toEqual(["anaesthetic-not-known"]);
  });
});

describe("a child", () => {
  test("has no number until local policy sets one, whatever else is missing", () => {
    expect(codes(child)).toEqual(["anaesthetic-no-child-row"]);
    expect(codes({ ...child, weightKg: missing("not asked") })).toEqual(["anaesthetic-no-child-row"]);
    expect(lidocaineCeiling(child, rows).mostMg).toBeUndefined();
  });

  test("never falls back on the adult's figure when only the other kind is set", () => {
    const plainOnly = { ...rows, childMgPerKg: { plain: 3, withAdrenaline: 0 } };
    expect(lidocaineCeiling(child, plainOnly).mostMg).toBe(39);
    expect(codes({ ...child, withAdrenaline: true }, plainOnly)).toEqual(["anaesthetic-no-child-row"]);
  });

  test("keeps to the adult's most, however heavy", () => {
    expect(lidocaineCeiling({ ...child, weightKg: kilogram(90) }, childRows).mostMg).toBe(300);
  });

  test("under the policy's age gets a share, from that day on the whole", () => {
    const infant = (days: number) =>
      lidocaineCeiling({ ...child, weightKg: kilogram(5), ageDays: day(days) }, childRows).mostMg;
    expect(infant(182)).toBeCloseTo(15.75, 12);
    expect(infant(183)).toBeCloseTo(22.5, 12);
  });

  test("newly born gets no number from any row", () => {
    expect(codes({ ...child, group: "newborn" }, childRows)).toEqual(["anaesthetic-no-child-row"]);
  });
});
