import { expect, test } from "vitest";
import { day } from "../quantity/index.ts";
import {
  clusterAgainstBaseline,
  compareStandardisedRatios,
  countAgainstExpected,
  countLimits,
  eventsToCompare,
  expectedEvents,
  figureForm,
  incidenceRate,
  mantelHaenszel,
  proportionLimits,
  rateRatio,
  rateWithMissingEnds,
  ratioWithDoubtfulReference,
  shareWithMissingEnds,
  standardisedRatio,
  upperOverEstimate,
  upperShareAfterNone,
} from "./index.ts";

const seen = (events: number, days: number, clock = "exact line-days") => ({ events, days: day(days), clock });

test("a rate carries the name of its clock and its method", () => {
  expect(incidenceRate(seen(7, 4321.5), 0.95, "exact")).toMatchObject({ clock: "exact line-days", method: "exact" });
});

test("rates on different clocks are not compared", () => {
  expect(() => rateRatio(seen(1, 10), seen(2, 20, "line-days at census"), 0.95, "exact")).toThrow(/same way/);
  expect(() => clusterAgainstBaseline(seen(1, 10), seen(2, 20, "line-days at census"))).toThrow(/same way/);
});

test("one side without events has an open end, two sides have no ratio", () => {
  const open = rateRatio(seen(4, 2150), seen(0, 1890), 0.95, "exact");
  expect(open).toMatchObject({ ratio: Infinity, upper: Infinity });
  expect(rateRatio(seen(0, 2150), seen(0, 1890), 0.95, "mid-P")).toBe("no events on either side");
  expect(mantelHaenszel([{ first: seen(3, 10), second: seen(0, 20) }], 0.95)).toBe("no events on one side");
  const none = { observed: 0, expected: 2 };
  expect(compareStandardisedRatios(none, none, 0.95, "exact")).toBe("no events on either side");
});

test("a standardised ratio is withheld below the least expected, and has no lower limit at none observed", () => {
  const rule = { level: 0.95, method: "mid-P", leastExpected: 1 } as const;
  expect(standardisedRatio({ observed: 2, expected: 0.99 }, rule)).toBe("too few expected");
  expect(standardisedRatio({ observed: 0, expected: 1.5 }, rule)).not.toHaveProperty("lower");
});

test("a count takes the form its number of events allows", () => {
  expect([0, 4, 5].map((events) => figureForm(events, 5))).toEqual([
    "upper limit only",
    "count only, interval first",
    "estimate with interval",
  ]);
});

test("a baseline that grows without end gives the Poisson chance", () => {
  const sure = clusterAgainstBaseline(seen(5, 90), seen(8e9, 730e9)).asManyOrMore;
  expect(sure).toBeCloseTo(countAgainstExpected(5, (8 / 730) * 90).asManyOrMore, 8);
});

test("impossible input is refused with a sentence", () => {
  expect(() => countLimits(-1, 0.95, "exact")).toThrow(/whole and not below zero/);
  expect(() => countLimits(1, 1, "Byar")).toThrow(/level is 1/);
  expect(() => incidenceRate(seen(1, 0), 0.95, "exact")).toThrow(/more than zero/);
  expect(() => proportionLimits(3, 2, 0.95, "Wilson")).toThrow(/3 of 2/);
  expect(() => countAgainstExpected(1, 0)).toThrow(/above zero/);
  expect(() => expectedEvents([{ days: day(5), referencePerThousand: -1 }])).toThrow(/reference rate/);
  expect(() => ratioWithDoubtfulReference({ observed: 0, expected: 1 }, 4, 0.95)).toThrow(/exceed zero/);
  expect(() => shareWithMissingEnds(3, 3, 5)).toThrow(/do not fit/);
  expect(() => upperOverEstimate(0, 0.95)).toThrow(/no estimate/);
  expect(() => upperShareAfterNone(0, 0.95)).toThrow(/at least one/);
  expect(() => eventsToCompare(1, 0.5, 0.95, 0.8)).toThrow(/nothing to plan/);
  const swapped = { knownEvents: 1, possibleEvents: 0, fewestDays: day(9), mostDays: day(8), clock: "exact line-days" };
  expect(() => rateWithMissingEnds(swapped, 0.95, "exact")).toThrow(/swap/);
});
