import { expect, test } from "vitest";
import { parseCivilDate, type CivilDate } from "../calendar/index.ts";
import { deviceUtilisation, machineCountFrom, maySample, sampledLineDays, type DenominatorRule } from "./index.ts";

const month = (n: number) => parseCivilDate(`2025-${String(n).padStart(2, "0")}-01`) as CivilDate;

/** CDC/NHSN, Patient Safety Component Manual, ch. 4: 75 line-days (from memory), three months within 5 per cent. */
const rule: DenominatorRule = {
  name: "2025",
  validFrom: month(1),
  source: "CDC/NHSN, Patient Safety Component Manual, ch. 4",
  leastLineDaysToSample: 75,
  agreementMonths: 3,
};

test("device utilisation is days with a line over patient-days; what cannot be a share is named", () => {
  expect(deviceUtilisation(120, 400)).toBe(0.3);
  expect(deviceUtilisation(0, 0)).toBe("no patient-days");
  expect(deviceUtilisation(401, 400)).toBe("more line-days than patient-days");
  expect(() => deviceUtilisation(-1, 400)).toThrow("neither is below zero");
});

test("line-days of one weekday stand for the month by their share of patient-days", () => {
  expect(sampledLineDays({ withLine: 30, all: 100 }, 412)).toBeCloseTo(123.6, 12);
  // every day sampled is the full count
  expect(sampledLineDays({ withLine: 123, all: 412 }, 412)).toBeCloseTo(123, 12);
  expect(sampledLineDays({ withLine: 0, all: 0 }, 412)).toBe("no patient-days");
  expect(sampledLineDays({ withLine: 9, all: 8 }, 412)).toBe("more line-days than patient-days");
});

test("a ward samples from 75 line-days a month on average of the year before, which must be known", () => {
  expect(maySample([74, 76], rule)).toBe("may sample");
  expect(maySample([74, 75], rule)).toBe("too few line-days");
  expect(maySample([], rule)).toBe("not known");
  // the thirteenth month back no longer counts
  expect(maySample([2000, ...Array<number>(12).fill(10)], rule)).toBe("too few line-days");
});

test("the machine's count stands alone from the third month in a row within 5 per cent", () => {
  const counted = (hands: readonly (readonly [number, number])[]) =>
    hands.map(([n, byHand]) => ({ month: month(n), byMachine: 100, byHand }));
  const from = (...hands: readonly (readonly [number, number])[]) => machineCountFrom(counted(hands), rule, 0.05);
  expect(from([3, 100], [1, 96], [2, 105])).toBe(month(3));
  expect(from([1, 100], [2, 100])).toBeUndefined();
  expect(from([1, 100], [2, 100], [4, 100])).toBeUndefined();
  expect(from([1, 100], [2, 95], [3, 100], [4, 100])).toBeUndefined();
  expect(from([1, 100], [2, 95], [3, 100], [4, 100], [5, 100])).toBe(month(5));
});
