import { expect, test } from "vitest";
import {
  degree,
  degreeToRadian,
  french,
  frenchToMillimetre,
  inch,
  inchToCentimetre,
  pound,
  poundToKilogram,
} from "./index.ts";

// Common practice, no source: the French scale is three to the millimetre.
test("a 4 French catheter is four thirds of a millimetre wide", () => {
  expect(frenchToMillimetre(french(4))).toBe(4 / 3);
});

// International yard and pound agreement, 1959: 1 lb = 0.453 592 37 kg and 1 in = 25.4 mm, both exact.
test("22 lb is 9.98 kg and 16 in is 40.64 cm", () => {
  expect(poundToKilogram(pound(22))).toBeCloseTo(9.97903214, 10);
  expect(inchToCentimetre(inch(16))).toBeCloseTo(40.64, 12);
});

test("180 degrees is pi", () => {
  expect(degreeToRadian(degree(180))).toBe(Math.PI);
});
