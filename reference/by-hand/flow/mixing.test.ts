import { expect, test } from "vitest";
import { acidityShift, flowToStayUnder, mixedOsmolarity, rateToStayUnder } from "../../../src/core/flow/index.ts";
import { millilitrePerHour, millilitrePerMinute, milliosmolePerLitre } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

const osmolarity = milliosmolePerLitre;
const mixed = (own: number, rate: number, flow: number) =>
  mixedOsmolarity(
    { osmolarity: osmolarity(own), rate: millilitrePerHour(rate) },
    { flow: millilitrePerMinute(flow), haematocrit: 0.42, osmolarity: osmolarity(290) },
  );

checkAgainst(
  {
    quantity: "Mean osmolarity at the tip, whole blood and plasma only",
    unit: "mOsm/L",
    source: "conservation of solute by hand, blood 290, haematocrit 0.42",
    kind: "by-hand",
    tolerance: 0.1,
    comparisons: 15,
  },
  (compare) => {
    for (const [own, rate, flow, whole, plasma] of [
      [900, 100, 5, 442.5, 512.6],
      [900, 100, 95, 300.5, 307.9],
      [1700, 100, 5, 642.5, 804.6],
      [1700, 100, 95, 314.3, 331.4],
      [1700, 100, 95 * 0.1625, 427.4, 511.2],
      [2525, 60, 20, 396.4, 467.4],
      [1800, 3600, 2000, 334, 364.3],
    ] as const) {
      compare(`${own} at ${rate} into ${flow}`, mixed(own, rate, flow).wholeBlood, whole);
      compare(`${own} at ${rate} into ${flow}, plasma`, mixed(own, rate, flow).plasmaOnly, plasma);
    }
    compare("no flow", mixed(1700, 100, 0).wholeBlood, 1700);
  },
);

checkAgainst(
  {
    quantity: "Flow and rate that keep full mixing under a limit",
    unit: "mL/min and mL/h",
    source: "conservation of solute by hand",
    kind: "by-hand",
    tolerance: 0.05,
    comparisons: 5,
  },
  (compare) => {
    const needed = (own: number, limit: number) =>
      flowToStayUnder(
        { osmolarity: osmolarity(own), rate: millilitrePerHour(100) },
        osmolarity(limit),
        osmolarity(290),
      ) ?? Number.NaN;
    compare("1700 under 400", needed(1700, 400), 19.697);
    compare("900 under 400", needed(900, 400), 7.576);
    compare("1250 under 600", needed(1250, 600), 3.495);
    for (const [flow, rate] of [
      [20, 101.5],
      [95, 482.3],
    ] as const)
      compare(
        `1700 into ${flow}`,
        rateToStayUnder(osmolarity(1700), millilitrePerMinute(flow), osmolarity(400), osmolarity(290)),
        rate,
      );
  },
);

checkAgainst(
  {
    quantity: "Change of pH by buffering",
    unit: "pH",
    source: "f TA / (Q beta) by hand, beta 30 (from memory)",
    kind: "by-hand",
    tolerance: 5.1e-4,
    comparisons: 4,
  },
  (compare) => {
    for (const [acidity, flow, change] of [
      [22, 5, -0.2444],
      [22, 20, -0.0611],
      [0.16, 5, -0.0018],
      [3, 5, -0.0333],
    ] as const) {
      const answer = acidityShift(
        { rate: millilitrePerHour(100), titratableAcidity: acidity },
        { flow: millilitrePerMinute(flow), bufferValue: 30 },
      );
      compare(`${acidity} mEq/L into ${flow}`, answer.kind === "shift" ? answer.change : Number.NaN, change);
    }
  },
);

test("equal osmolarity stays equal at any flow, no flow never divides, and a limit below the blood has no answer", () => {
  for (const flow of [0, 1e-300, 5, 2000]) expect(mixed(290, 100, flow).wholeBlood).toBe(290);
  expect(mixed(1700, 0, 0).wholeBlood).toBe(1700);
  expect(mixed(1700, 0, 20).wholeBlood).toBe(290);
  const none = { rate: millilitrePerHour(100), titratableAcidity: 22 };
  expect(acidityShift(none, { flow: millilitrePerMinute(0), bufferValue: 30 })).toEqual({ kind: "undiluted" });
  const thick = { osmolarity: osmolarity(1700), rate: millilitrePerHour(100) };
  expect(flowToStayUnder(thick, osmolarity(290), osmolarity(290))).toBeUndefined();
  expect(flowToStayUnder(thick, osmolarity(1700), osmolarity(290))).toBe(0);
  expect(() => mixed(1700, 100, -1)).toThrow(RangeError);
});
