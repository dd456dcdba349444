import { describe, expect, test } from "vitest";
import { french, frenchToMillimetre, millimetre } from "../quantity/index.ts";
import { judgeRatio } from "./index.ts";

const cuts = { limit: 0.45, chanceMet: 0.9, chanceNotMet: 0.1 };
const judge = (size: number, diameterMm: number, sdMm = 0.3) =>
  judgeRatio(
    { outsideDiameterMm: frenchToMillimetre(french(size)), diameterMm: millimetre(diameterMm), sdMm: millimetre(sdMm) },
    cuts,
  );

describe("rounding never decides", () => {
  test("5 Fr in 3.70 and in 3.80 mm are both at the limit of 45 %", () => {
    expect(judge(5, 3.7).ratio).toBeCloseTo(0.45045, 5);
    expect(judge(5, 3.7).verdict).toBe("at the limit");
    expect(judge(5, 3.7).chance).toBeCloseTo(0.495, 3);
    expect(judge(5, 3.8).verdict).toBe("at the limit");
    expect(judge(5, 3.8).chance).toBeCloseTo(0.626, 3);
  });

  test("4 Fr in 4.3 mm is met, 4 Fr in 2.5 mm is not", () => {
    expect(judge(4, 4.3).verdict).toBe("met");
    expect(judge(4, 2.5).verdict).toBe("not met");
  });
});

describe("the interval", () => {
  // 1.3333 / (4.3 + 0.588) and 1.3333 / (4.3 - 0.588), by hand
  test("is the diameter's interval, transformed", () => {
    const ratio = judge(4, 4.3);
    expect(ratio.ratioLow).toBeCloseTo(4 / 3 / 4.888, 10);
    expect(ratio.ratioHigh).toBeCloseTo(4 / 3 / 3.712, 10);
  });

  test("has no upper end when the vein's own interval reaches zero", () => {
    expect(judge(3, 0.5).ratioHigh).toBe(Infinity);
  });
});
