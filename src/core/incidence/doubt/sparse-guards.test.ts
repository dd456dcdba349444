import { expect, test } from "vitest";
import { sparseGuards } from "../index.ts";

// Limits by common practice, no source.
const limits = { daysOfOneLine: 0.2, eventsOfOnePerson: 0.2, otherEnds: 0.1, unknownEnds: 0.05 };
const even = {
  daysByLine: [10, 10, 10, 10, 10],
  eventsByPerson: [1, 1, 1, 1, 1],
  ends: 100,
  otherEnds: 10,
  unknownEnds: 5,
};

test("shares at their limits raise nothing, one above each raises it and says the share", () => {
  expect(sparseGuards(even, limits)).toEqual([]);
  const uneven = { ...even, daysByLine: [30, 10, 10], eventsByPerson: [3, 1], otherEnds: 11, unknownEnds: 6 };
  expect(sparseGuards(uneven, limits)).toEqual([
    { guard: "daysOfOneLine", share: 0.6, limit: 0.2 },
    { guard: "eventsOfOnePerson", share: 0.75, limit: 0.2 },
    { guard: "otherEnds", share: 0.11, limit: 0.1 },
    { guard: "unknownEnds", share: 0.06, limit: 0.05 },
  ]);
});

test("nothing seen raises nothing, and impossible counts are refused", () => {
  expect(
    sparseGuards({ daysByLine: [], eventsByPerson: [0, 0], ends: 0, otherEnds: 0, unknownEnds: 0 }, limits),
  ).toEqual([]);
  expect(() => sparseGuards({ ...even, otherEnds: 99, unknownEnds: 2 }, limits)).toThrow("correct the counts");
});
