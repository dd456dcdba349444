import { expect, test } from "vitest";
import {
  binomialFunnel,
  chanceOfEventsToCome,
  overdispersion,
  poissonFunnel,
  posterior,
  posteriorShare,
  shrinkRates,
  shrinkShares,
  shrunkRateLimits,
  shrunkShareLimits,
} from "./index.ts";

test("units that differ no more than chance are pooled", () => {
  const found = shrinkRates({ count: [4, 5, 4, 5], exposure: [100, 100, 100, 100] });
  expect(found).toMatchObject({ kind: "no excess spread", pooled: 0.045, degreesOfFreedom: 3 });
});

test("a unit with little time counts for little", () => {
  const found = shrinkRates({ count: [30, 2, 3, 40, 1], exposure: [10, 10, 10, 10, 0.1] });
  if (found.kind !== "shrunk") throw new Error("no spread found");
  const weights = found.units.map((unit) => unit.ownWeight);
  expect(weights[4]).toBeLessThan(weights[0] as number);
  expect(found.units[4]?.mean).toBeLessThan(10);
});

test("what cannot be judged is refused in a sentence", () => {
  expect(() => shrinkRates({ count: [3], exposure: [10] })).toThrow("1 units with 3 events");
  expect(() => shrinkRates({ count: [0, 0], exposure: [10, 10] })).toThrow("2 units with 0 events");
  expect(() => posterior(0, 1, 2, 3)).toThrow("Prior 0, 1");
  expect(() => poissonFunnel(0, [0.5])).toThrow("0 events are expected");
  expect(() => poissonFunnel(5, [2])).toThrow("share is 2");
  expect(() => binomialFunnel(2.5, 0.5, [0.5])).toThrow("2.5 at a chance");
  expect(() => overdispersion([1], [0], { winsorise: 0, fewest: 1 })).toThrow("1 z and 1 errors");
  expect(() => overdispersion([1], [1], { winsorise: 0.5, fewest: 1 })).toThrow("winsorised is 0.5");
  expect(() => shrinkShares({ count: [3], number: [10] })).toThrow("1 units with 3 events");
  expect(() => shrinkShares({ count: [3, 4], number: [3, 4] })).toThrow("2 units with 7 events in 7");
  expect(() => shrinkShares({ count: [3, 5], number: [10, 4] })).toThrow("no fewer members");
  expect(() => posteriorShare(0, 1, 2, 3)).toThrow("Prior 0, 1 with 2 of 3");
  expect(() => shrunkShareLimits(posteriorShare(1, 1, 2, 3), 1)).toThrow("level is 1");
  expect(() => shrunkRateLimits(posterior(1, 1, 2, 3), 0)).toThrow("level is 0");
  expect(() => chanceOfEventsToCome(posterior(1, 1, 2, 3), 1, 0)).toThrow("to come is 0");
});

test("a small unit's share leans on the others, and a large one keeps its own", () => {
  const found = shrinkShares({ count: [2, 20, 60, 30, 5], number: [4, 200, 200, 250, 190] });
  if (found.kind !== "shrunk") throw new Error("no spread found");
  const [small, , large] = found.units;
  expect(small?.mean).toBeLessThan(0.3);
  expect(large?.mean).toBeGreaterThan(0.27);
  expect(small?.ownWeight).toBeLessThan(large?.ownWeight as number);
});
