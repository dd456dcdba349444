import { expect, test } from "vitest";
import { normalLowerTail, normalQuantile } from "./index.ts";

// Abramowitz and Stegun 1964, table 26.1: P(1) = 0.84134 47460 68543, P(2) = 0.97724 98680 51821, P(3) = 0.99865 01019 68370
test("the lower tail agrees with the printed table", () => {
  expect(normalLowerTail(0)).toBe(0.5);
  expect(normalLowerTail(1)).toBeCloseTo(0.841344746068543, 14);
  expect(normalLowerTail(2)).toBeCloseTo(0.977249868051821, 14);
  expect(normalLowerTail(3)).toBeCloseTo(0.99865010196837, 14);
});

test("the two tails add to one and the quantile undoes the tail", () => {
  for (const z of [-8, -3, -2.5, -1.2816, -0.3, 0.7, 2.4999, 2.5001, 5]) {
    expect(normalLowerTail(z) + normalLowerTail(-z)).toBeCloseTo(1, 14);
    expect(normalQuantile(normalLowerTail(z))).toBeCloseTo(z, z > 4 ? 8 : 11);
  }
});

test("outside zero to one there is no quantile", () => {
  expect(normalQuantile(1.2)).toBeNaN();
  expect(normalQuantile(0)).toBe(-Infinity);
});
