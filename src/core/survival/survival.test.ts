import { expect, test } from "vitest";
import {
  cumulativeIncidence,
  grayTest,
  kaplanMeier,
  occupationAt,
  quantileTime,
  restrictedMean,
  riskTable,
  stateOccupation,
  survivalAt,
} from "./index.ts";

const follow = { exit: [2, 3, 3, 3, 5, 7, 7, 9], end: [1, 1, 0, 1, 0, 1, 0, 0] };

// Example of eight lines worked by hand: 7/8, 7/8 x 5/7, and 5/8 x 2/3
test("the curve steps at events and not at censorings", () => {
  const curve = kaplanMeier(riskTable(follow));
  expect([...curve.time]).toEqual([2, 3, 7]);
  expect([...curve.atRisk]).toEqual([8, 7, 3]);
  expect(survivalAt(curve, 2, 0.95).survival).toBeCloseTo(0.875, 14);
  expect(survivalAt(curve, 6.9, 0.95).survival).toBeCloseTo(0.625, 14);
  expect(survivalAt(curve, 7, 0.95).survival).toBeCloseTo(5 / 12, 14);
  expect(survivalAt(curve, 1.9, 0.95)).toEqual({ survival: 1, standardError: 0, low: undefined, high: undefined });
});

test("a row that enters at an event is not yet at risk then", () => {
  const curve = kaplanMeier(riskTable({ entry: [0, 0, 2], exit: [2, 5, 5], end: [1, 1, 1] }));
  expect([...curve.atRisk]).toEqual([2, 2]);
});

test("a curve that rests on the median gives the middle of its rest", () => {
  const curve = kaplanMeier(riskTable({ exit: [1, 2, 4, 6], end: [1, 1, 1, 1] }));
  expect(quantileTime(curve, 0.5, 0.95).time).toBe(3);
  expect(quantileTime(curve, 0.9, 0.95).time).toBe(6);
});

test("nothing followed gives an empty curve and a full mean", () => {
  const curve = kaplanMeier(riskTable({ exit: [], end: [] }));
  expect(curve.time.length).toBe(0);
  expect(restrictedMean(curve, 10)).toEqual({ mean: 10, standardError: 0 });
});

test("what cannot be followed is refused with its row", () => {
  expect(() => riskTable({ exit: [3, Number.NaN], end: [1, 0] })).toThrow("Row 2 leaves at NaN");
  expect(() => riskTable({ entry: [0, 4], exit: [3, 4], end: [1, 0] })).toThrow("Row 2 enters at 4");
  expect(() => riskTable({ exit: [3], end: [1.5] })).toThrow("Row 1 has end 1.5");
  expect(() => riskTable({ exit: [3], end: [1, 2] })).toThrow("1 exits and 2 of end");
  expect(() => kaplanMeier(riskTable(follow), 1)).toThrow("Group 1");
  expect(() => cumulativeIncidence(riskTable(follow), 4)).toThrow("Group 4");
  expect(() => restrictedMean(kaplanMeier(riskTable(follow)), 0)).toThrow("horizon is 0");
  expect(() => grayTest([riskTable({ entry: [0, 1], exit: [3, 4], end: [1, 2] })], 1)).toThrow("delayed entry");
  expect(() => survivalAt(kaplanMeier(riskTable(follow)), 3, 95)).toThrow("level is 95");
});

// Two lines open at the start: one blocks on day 2 and is cleared on day 5; both are out on day 9
test("a line that blocks and is cleared is in one state at a time", () => {
  const stays = { entry: [0, 2, 5, 0], exit: [2, 5, 9, 9], from: [0, 1, 0, 0], to: [1, 0, 2, 2] };
  const curve = stateOccupation(stays, 0);
  expect(occupationAt(curve, 1, 0).occupation).toEqual([1, 0, 0]);
  expect(occupationAt(curve, 2, 0)).toMatchObject({ occupation: [0.5, 0.5, 0] });
  expect(occupationAt(curve, 5, 0).occupation).toEqual([1, 0, 0]);
  expect(occupationAt(curve, 9, 0).occupation).toEqual([0, 0, 1]);
  expect(occupationAt(stateOccupation(stays, 0, 2), 4, 0).occupation).toEqual([1, 0, 0]);
  expect(() => stateOccupation({ ...stays, to: [1, 0, 2, 2.5] }, 0)).toThrow("Row 4 goes from state 0 to 2.5");
  expect(() => stateOccupation({ ...stays, entry: [0, 5, 5, 0] }, 0)).toThrow("Row 2 enters at 5");
  expect(() => stateOccupation({ ...stays, from: [0] }, 0)).toThrow("4 exits and 1 of from");
  expect(() => stateOccupation(stays, -1)).toThrow("state to start in is -1");
});
