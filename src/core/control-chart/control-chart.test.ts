import { expect, test } from "vitest";
import {
  baseRate,
  bernoulliCusum,
  bernoulliDesign,
  bernoulliRunLength,
  countCusum,
  countCusumRunLength,
  cusumReference,
  decisionLimit,
  eventsToSignal,
  ewmaChart,
  exposureCusum,
  gChartLimits,
  longExposureGap,
  overdispersion,
  predictedLessSeen,
  riskAdjustedRunLength,
  riskWeight,
  shortExposureGaps,
  shortLineGaps,
  tChartByPower,
  tChartLimits,
  uChart,
} from "./index.ts";

// The sum signals when it reaches the decision, not only when it passes it.
test("a sum that just reaches the decision is a signal, and starts again from where it is told", () => {
  expect(countCusum([3, 4, 3], 1.5, { decision: 4 })).toEqual([
    { value: 1.5, signal: false },
    { value: 4, signal: true },
    { value: 1.5, signal: false },
  ]);
  expect(countCusum([3, 4, 3], 1.5, { decision: 4, headStart: 2, resetTo: 2 }).map((point) => point.value)).toEqual([
    3.5, 6, 3.5,
  ]);
});

test("a Bernoulli sum walks on whole numbers and stops at zero", () => {
  const values = bernoulliCusum([false, true, false, true], 3, { decision: 5 }).map((point) => point.value);
  expect(values).toEqual([0, 3, 2, 5]);
});

test("the exposure form gives the same sum by months or by days, when each event closes its day", () => {
  const months = exposureCusum([{ events: 2, expected: 1 }], 2, { decision: 9 });
  const days = exposureCusum(
    [
      { events: 0, expected: 0 },
      { events: 2, expected: 1 },
    ],
    2,
    { decision: 9 },
  );
  expect(days.at(-1)?.value).toBe(months.at(-1)?.value);
  expect(months[0]?.value).toBeCloseTo(2 * Math.LN2 - 1, 15);
});

test("predicted less seen falls with every event", () => {
  const path = predictedLessSeen([
    { event: false, risk: 0.1 },
    { event: true, risk: 0.2 },
  ]);
  expect(path[0]).toBe(0.1);
  expect(path[1]).toBeCloseTo(-0.7, 15);
});

test("a month without events is low only when that is surprising", () => {
  const [quiet] = uChart([{ events: 0, exposure: 7 }], 1, { sigmas: 3, bound: 0.00135 });
  expect(quiet).toMatchObject({ rate: 0, lower: 0, outsideClassical: false, signal: "low" });
  expect(uChart([{ events: 0, exposure: 6 }], 1, { sigmas: 3, bound: 0.00135 })[0]?.signal).toBeUndefined();
});

test("impossible input is refused with a sentence", () => {
  expect(() => baseRate([])).toThrow(/base period is empty/);
  expect(() => uChart([], 0, { sigmas: 3, bound: 0.00135 })).toThrow(/base rate is 0/);
  expect(() => uChart([{ events: 1, exposure: 0 }], 1, { sigmas: 3, bound: 0.00135 })).toThrow(/exposure above zero/);
  expect(() => ewmaChart([], 1, { weight: 0, sigmas: 3 })).toThrow(/weight is 0/);
  expect(() => ewmaChart([], 0, { weight: 0.1, sigmas: 3 })).toThrow(/base rate is 0/);
  expect(() => overdispersion([{ events: 1, exposure: 1 }])).toThrow(/two or more/);
  expect(() => gChartLimits([1.5, 2], { bound: 0.00135, sigmas: 3 })).toThrow(/whole number/);
  expect(() => gChartLimits([0, 0], { bound: 0.00135, sigmas: 3 })).toThrow(/not all zero/);
  expect(() => tChartLimits([1, 2], 0.6)).toThrow(/bound is 0.6/);
  expect(() => tChartByPower([3, -1], 3)).toThrow(/none below zero/);
  expect(() => tChartByPower([0, 0], 3)).toThrow(/not all zero/);
  expect(() => tChartByPower([1, 2], 0)).toThrow(/0 deviations wide/);
  for (const short of [shortLineGaps, shortExposureGaps]) expect(() => short([1], 0)).toThrow(/base mean gap/);
  expect(() => longExposureGap(1, 0)).toThrow(/base mean gap/);
  expect(() => cusumReference(1, 1)).toThrow(/different/);
  expect(() => countCusum([1], 1, { decision: 0 })).toThrow(/decision limit/);
  expect(() => exposureCusum([{ events: 1, expected: -1 }], 2, { decision: 1 })).toThrow(/zero or more/);
  expect(() => riskWeight({ event: true, risk: 2 }, 2)).toThrow(/risk is 2/);
  expect(() => riskWeight({ event: true, risk: 0.1 }, 1)).toThrow(/ratio to detect/);
  expect(() => bernoulliDesign(0.2, 0.1)).toThrow(/must rise/);
  expect(() => bernoulliRunLength(0, { upStep: 3, decision: 5 })).toThrow(/chance is 0/);
  expect(() => countCusumRunLength(1, { reference: 1.3, decision: 4, gridPerEvent: 2 })).toThrow(/not on a grid/);
  expect(() => countCusumRunLength(1, { reference: 1, decision: 4000, gridPerEvent: 1 })).toThrow(/1 to 1500/);
  const design = { oddsRatio: 2, decision: 2, trueOddsRatio: 1 };
  expect(() => riskAdjustedRunLength([], { ...design, cells: 50 })).toThrow(/mix of risks/);
  expect(() => riskAdjustedRunLength([], { ...design, cells: 5 })).toThrow(/20 to 1500/);
  expect(() => eventsToSignal(0.5, 1, 1)).toThrow(/ratio above one/);
  expect(() => eventsToSignal(2, 30, 1)).toThrow(/digits are lost/);
  expect(() => decisionLimit(2, 1)).toThrow(/cannot be had/);
});
