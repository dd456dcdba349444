import { describe, expect, test } from "vitest";
import { defaultPolicyTable, expiryLimitsFrom } from "../../policy/index.ts";
import { clockIsBehind, freshness, lastsHours } from "./index.ts";

const limits = expiryLimitsFrom(defaultPolicyTable);
const HOUR = 3_600_000;
const after = (hours: number, lasts: number | undefined) => freshness(0, hours * HOUR, lasts);

describe("a reading grows old", () => {
  test("a vein after 24 hours, whoever's", () => {
    const lasts = lastsHours("arms.right.surveys.0.stations.2.diameterMm", undefined, limits);
    expect(after(24, lasts)).toBe("fresh");
    expect(after(24.01, lasts)).toBe("expired");
  });

  test("a child's weight after 7 days, a newborn's after 24 hours, an adult's never", () => {
    expect(after(7 * 24, lastsHours("patient.weight", "child", limits))).toBe("fresh");
    expect(after(7 * 24 + 0.01, lastsHours("patient.weight", "child", limits))).toBe("expired");
    expect(after(25, lastsHours("patient.weightKg", "newborn", limits))).toBe("expired");
    expect(after(9999, lastsHours("patient.weight", "adult", limits))).toBe("not known");
  });

  test("a weight without an age has no rule, and a name never grows old", () => {
    expect(lastsHours("patient.weight", undefined, limits)).toBeUndefined();
    expect(lastsHours("patient.name", "child", limits)).toBeUndefined();
  });

  test("a reading from the future is not fresh: one clock is wrong", () => {
    expect(freshness(5 * HOUR, 0, 24)).toBe("not known");
    expect(freshness(Number.NaN, 0, 24)).toBe("not known");
  });
});

test("a clock before the last entry is behind, one at it or without entries is not", () => {
  expect(clockIsBehind(10, 11)).toBe(true);
  expect(clockIsBehind(11, 11)).toBe(false);
  expect(clockIsBehind(10, undefined)).toBe(false);
});
