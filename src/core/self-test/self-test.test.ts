import { describe, expect, test } from "vitest";
import { defaultPolicyTable, planPolicyFrom, tableWithValues } from "../../policy/index.ts";
import { goldenNumbers, runSelfTest } from "./index.ts";

const defaults = planPolicyFrom(defaultPolicyTable);

test("the golden numbers are right", () => {
  expect(runSelfTest(defaults)).toEqual({ passed: true, failures: [] });
});

test("any one function that is off is named", () => {
  const numbers = goldenNumbers(defaults);
  expect(numbers.length).toBeGreaterThan(40);
  for (const golden of numbers) {
    const wrong = () => {
      const right = golden.now();
      return typeof right === "number" ? right * 1.001 : `${right}.`;
    };
    const broken = numbers.map((one) => (one === golden ? { ...one, now: wrong } : one));
    expect(runSelfTest(defaults, broken).failures).toEqual([golden.name]);
  }
});

test("no number at all is off too", () => {
  expect(runSelfTest(defaults, [{ name: "lost", now: () => Number.NaN, expected: 1, tolerance: 1 }]).passed).toBe(
    false,
  );
  expect(runSelfTest(defaults, [{ name: "word", now: () => "no number", expected: 1, tolerance: 9 }]).passed).toBe(
    false,
  );
});

describe("a shipped limit that changed is noticed at the start", () => {
  for (const [key, value] of [
    ["ratio.limit", 0.5],
    ["ratio.marks", [0.34, 0.45]],
    ["ratio.chance-met", 0.4],
    ["ratio.chance-not-met", 0.499],
    ["vein.one-reading-sd", 0.31],
    ["weight.band-1-up-to", 12],
    ["weight.band-2-up-to", 55],
    ["weight.band-1-french", 4],
    ["weight.band-2-french", 5],
    ["weight.band-3-french", 6],
    ["vein.order", ["brachial", "basilic"]],
    ["age.newborn-under", 30],
    ["age.adult-from", 16],
    ["length.carina-to-junction", 5.4],
    ["anaesthetic.plain-mg-per-kg", 5],
    ["anaesthetic.plain-most", 320],
    ["anaesthetic.adrenaline-mg-per-kg", 7.5],
    ["anaesthetic.adrenaline-most", 550],
    ["arm-bar.dialysis-access", "strong"],
  ] as const) {
    test(key, () => {
      const table = tableWithValues(defaultPolicyTable, { [key]: value });
      expect(runSelfTest(planPolicyFrom(table)).failures).not.toEqual([]);
    });
  }
});
