import { expect, test } from "vitest";
import { goldenNumbers, runSelfTest } from "./index.ts";

test("the golden numbers are right", () => {
  expect(runSelfTest()).toEqual({ passed: true, failures: [] });
});

test("any one constant that is off is named", () => {
  for (const golden of goldenNumbers) {
    const broken = goldenNumbers.map((one) => (one === golden ? { ...one, now: () => one.now() * 1.01 } : one));
    expect(runSelfTest(broken).failures).toEqual([golden.name]);
  }
  expect(runSelfTest([{ name: "lost", now: () => Number.NaN, expected: 1, tolerance: 1 }]).passed).toBe(false);
});
