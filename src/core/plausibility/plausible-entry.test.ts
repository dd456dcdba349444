import { expect, test } from "vitest";
import { centimetre, kilogram } from "../quantity/index.ts";
import { tapeQuestion, usualWeightKg, weightQuestion } from "./index.ts";

const limits = { timesUsualWeight: 1.6, shortestAdultTapeCm: centimetre(25) };

// 22 lb is 9.979 kg (international pound, 1959); 14 months is 426 days.
test("22 kg at 14 months is asked about, with both readings", () => {
  const [question] = weightQuestion(426, kilogram(22), limits);
  expect(question?.code).toBe("weight-in-pounds");
  expect(question?.values["asKg"]).toBeCloseTo(9.979, 3);
  expect(weightQuestion(426, kilogram(9.98), limits)).toEqual([]);
});

test("16 for an adult's tape is asked about, with both readings", () => {
  const [question] = tapeQuestion(centimetre(16), "length", limits);
  expect(question?.values["asCm"]).toBeCloseTo(40.64, 6);
  expect(tapeQuestion(centimetre(41), "length", limits)).toEqual([]);
});

// Common practice, no source: 6 months 7.5 kg, 3 years 16 kg.
test("the usual weight follows the rule of thumb", () => {
  expect(usualWeightKg(0.5)).toBe(7.5);
  expect(usualWeightKg(3)).toBe(16);
});
