import { expect, test } from "vitest";
import { binomialFunnel, overdispersion, poissonFunnel, posterior, shrinkRates } from "./index.ts";

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
});
