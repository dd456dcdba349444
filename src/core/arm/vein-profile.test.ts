import { describe, expect, test } from "vitest";
import { missing } from "../missing/index.ts";
import { centimetre, millimetre } from "../quantity/index.ts";
import { diameterSd, profileAt, veinProfile, type Station } from "./index.ts";
import { station } from "../../../test/invented-station.ts";

const doubt = { oneReadingSdMm: millimetre(0.3), floorSdMm: millimetre(0.2), perCentimetreSdMm: millimetre(0.05) };

const at = (stations: Station[], place: number) =>
  profileAt(veinProfile({ vein: "basilic", stations }), centimetre(place), doubt);

describe("between two readings", () => {
  const point = at([station(11, 4.1, 12), station(8, 3.5, 9)], 9.5);

  test("diameter and depth lie on the straight line, whatever order they were typed in", () => {
    expect(point?.diameterMm).toBeCloseTo(3.8, 12);
    expect(point?.depthMm).toBeCloseTo(10.5, 12);
    expect(point?.measured).toBe(false);
  });

  test("the doubt is that of the worse neighbour and a step for each centimetre away", () => {
    expect(point?.sdMm).toBeCloseTo(0.3 + 1.5 * 0.05, 12);
  });

  test("the slope is the deepening toward the shoulder", () => {
    expect(point?.slope).toBeCloseTo(3 / 30, 12);
  });
});

describe("where nothing may be read", () => {
  test("outside the measured span", () => {
    expect(at([station(8, 3.5, 9), station(11, 4.1, 12)], 7.9)).toBeUndefined();
    expect(at([station(8, 3.5, 9), station(11, 4.1, 12)], 11.1)).toBeUndefined();
  });

  test("one reading answers only where it stands", () => {
    expect(at([station(8, 3.5, 9)], 8)?.diameterMm).toBe(3.5);
    expect(at([station(8, 3.5, 9)], 8.1)).toBeUndefined();
  });

  test("across no vein, a clot, an artery in front, or a wall that does not compress", () => {
    const broken: Partial<Station>[] = [
      { veinPresent: false },
      { thrombus: true },
      { artery: "in front" },
      { compressible: false },
    ];
    for (const fault of broken) {
      expect(at([station(8, 3.5, 9), station(11, 4.1, 12, fault)], 9.5), JSON.stringify(fault)).toBeUndefined();
    }
  });

  test("across a reading without a diameter", () => {
    expect(
      at([station(8, 3.5, 9), station(11, 4.1, 12, { diameterMm: missing("not measured") })], 9.5),
    ).toBeUndefined();
  });
});

// sqrt(0.2^2 + (0.3^2 - 0.2^2) / n) by hand: n = 1 gives 0.3; n = 5 gives sqrt(0.04 + 0.01) = 0.2236
test("repeats shrink the doubt toward the floor and never to nothing", () => {
  expect(diameterSd(doubt, 1)).toBeCloseTo(0.3, 12);
  expect(diameterSd(doubt, 5)).toBeCloseTo(Math.sqrt(0.05), 12);
  expect(diameterSd(doubt, 1e9)).toBeCloseTo(0.2, 6);
});
