import { describe, expect, test } from "vitest";
import { centimetre, kilogram, millimetre } from "../quantity/index.ts";
import {
  armLengthQuestion,
  noQuestions,
  tapeQuestion,
  usualWeightKg,
  veinDepthQuestion,
  veinWidthQuestion,
  weightQuestions,
  type PlausibleLimits,
} from "./index.ts";

const limits: PlausibleLimits = {
  timesUsualWeight: 1.6,
  shareOfUsualWeight: 0.5,
  leastAdultWeightKg: kilogram(25),
  leastBodyMassIndex: 9,
  mostBodyMassIndex: 60,
  shortestAdultCm: centimetre(120),
  shortestAdultTapeCm: centimetre(25),
  shortestAdultArmCm: centimetre(12),
  longestAdultArmCm: centimetre(35),
  mostArmShareOfHeight: 0.22,
  narrowestVeinMm: millimetre(0.6),
  widestVeinMm: millimetre(10),
  shallowestAdultVeinMm: millimetre(2),
};
const YEAR = 365.25;
const weigh = (ageDays: number, kg: number, cm?: number) =>
  weightQuestions(
    {
      adult: ageDays >= 18 * YEAR,
      ageDays,
      weightKg: kilogram(kg),
      heightCm: cm === undefined ? undefined : centimetre(cm),
    },
    limits,
  );
const codes = (findings: readonly { code: string }[]) => findings.map(({ code }) => code);

describe("a weight", () => {
  // 22 lb is 9.979 kg (international pound, 1959); 14 months is 426 days.
  test("of 22 kg at 14 months is asked about, with both readings", () => {
    const [question] = weigh(426, 22);
    expect(question?.code).toBe("weight-in-pounds");
    expect(question?.values["kg"]).toBe(22);
    expect(question?.values["asKg"]).toBeCloseTo(9.979, 3);
    expect(weigh(426, 9.98)).toEqual([]);
  });

  test("of 9.98 kg at 14 years asks whether months were meant; a small newborn is not asked about", () => {
    expect(codes(weigh(12 * YEAR, 9.98))).toEqual(["weight-low-for-age"]);
    expect(codes(weigh(40 * YEAR, 9.98))).toEqual(["weight-low-for-age"]);
    expect(weigh(3, 0.9, 35)).toEqual([]);
  });

  // 180 kg at 168 cm: 180 / 1.68^2 = 63.8; 180 lb is 81.6 kg.
  test("of 180 kg at 168 cm is asked about, with both readings; 90 kg is not", () => {
    const [question] = weigh(50 * YEAR, 180, 168);
    expect(question?.code).toBe("weight-high-for-height");
    expect(question?.values["asKg"]).toBeCloseTo(81.6, 1);
    expect(weigh(50 * YEAR, 90, 168)).toEqual([]);
    expect(codes(weigh(50 * YEAR, 26, 175))).toEqual(["weight-low-for-height"]);
  });

  test("beside an adult's height of 68 asks about inches, once", () => {
    const [question, ...more] = weigh(50 * YEAR, 70, 68);
    expect(question?.code).toBe("height-in-inches");
    expect(question?.values["asCm"]).toBeCloseTo(172.72, 6);
    expect(more).toEqual([]);
  });

  // Common practice, no source: 6 months 7.5 kg, 3 years 16 kg, 8 years 31 kg.
  test("is held against the rule of thumb", () => {
    expect(usualWeightKg(0.5)).toBe(7.5);
    expect(usualWeightKg(3)).toBe(16);
    expect(usualWeightKg(8)).toBe(31);
  });
});

test("limits that ask about nothing ask about nothing", () => {
  const body = { adult: true, ageDays: 20_000, weightKg: kilogram(400), heightCm: centimetre(20) };
  expect(weightQuestions(body, noQuestions)).toEqual([]);
  expect(weightQuestions({ ...body, adult: false, ageDays: 1000, weightKg: kilogram(0.3) }, noQuestions)).toEqual([]);
  expect(tapeQuestion(centimetre(2), "tape", noQuestions)).toEqual([]);
  expect(armLengthQuestion(centimetre(60), "arm", { adult: true, heightCm: centimetre(20) }, noQuestions)).toEqual([]);
  expect(veinWidthQuestion(millimetre(20), "vein", noQuestions)).toEqual([]);
  expect(veinWidthQuestion(millimetre(0.1), "vein", noQuestions)).toEqual([]);
  expect(veinDepthQuestion(millimetre(0), "vein", noQuestions)).toEqual([]);
});

describe("a length", () => {
  test("of 16 for an adult's tape is asked about, with both readings", () => {
    const [question] = tapeQuestion(centimetre(16), "length", limits);
    expect(question?.values["asCm"]).toBeCloseTo(40.64, 6);
    expect(tapeQuestion(centimetre(41), "length", limits)).toEqual([]);
  });

  test("of 8 for an adult's upper arm may be inches, of 40 it is long; a child's 8 is not asked about", () => {
    const arm = (cm: number, adult: boolean, height?: number) =>
      armLengthQuestion(
        centimetre(cm),
        "arm",
        { adult, heightCm: height === undefined ? undefined : centimetre(height) },
        limits,
      );
    expect(arm(8, true)[0]?.values["asCm"]).toBeCloseTo(20.32, 6);
    expect(codes(arm(40, true))).toEqual(["arm-long"]);
    expect(arm(21, true, 168)).toEqual([]);
    expect(arm(8, false, 77)).toEqual([]);
    expect(codes(arm(21, false, 77))).toEqual(["arm-long"]);
  });
});

describe("a vein", () => {
  test("of 12 mm may be 1.2 mm, of 0.43 mm may be 0.43 cm, and 4.3 mm is a vein", () => {
    expect(veinWidthQuestion(millimetre(12), "vein", limits)[0]?.values["asMm"]).toBeCloseTo(1.2, 12);
    expect(veinWidthQuestion(millimetre(0.43), "vein", limits)[0]?.values["asMm"]).toBeCloseTo(4.3, 12);
    expect(veinWidthQuestion(millimetre(4.3), "vein", limits)).toEqual([]);
  });

  test("1.2 mm deep in an adult may be 1.2 cm", () => {
    expect(veinDepthQuestion(millimetre(1.2), "vein", limits)[0]?.values["asMm"]).toBe(12);
    expect(veinDepthQuestion(millimetre(12), "vein", limits)).toEqual([]);
  });
});
