import { expect, test } from "vitest";
import { countLimitsFrom, defaultPolicyTable } from "../../policy/index.ts";
import { monitorPlan } from "./monitor-plan.ts";

// The budget is of the alarms that are kept: so many months between false signals of all of them together, by the definition
// of a budget; each of K charts then has K times as many. Common practice, no source.

const limits = countLimitsFrom(defaultPolicyTable);
const chart = (name: string, baseEvents: number, expected: number) => ({
  name,
  baseEvents,
  baseDays: 10_000,
  daysPerYear: (expected * 10_000) / baseEvents,
});

test("a chart on too small a base keeps no alarm and takes no part of the budget", () => {
  const kept = chart("kept", limits.baseEvents, 10);
  const alone = monitorPlan([kept], limits);
  const beside = monitorPlan([kept, chart("small base", limits.baseEvents - 1, 10), chart("rare", 40, 1)], limits);
  expect(beside.alarms).toBe(1);
  expect(beside.charts.map(({ alarm }) => alarm !== undefined)).toEqual([true, false, false]);
  expect(beside.charts[0]?.alarm).toEqual(alone.charts[0]?.alarm);
  expect(beside.charts[0]?.alarm?.yearsBetweenFalseSignals).toBeCloseTo(limits.falseAlarmMonths / 12, 9);
});

test("two that keep one have twice as long each", () => {
  const { alarms, charts } = monitorPlan([chart("a", 40, 10), chart("b", 40, 20)], limits);
  expect(alarms).toBe(2);
  for (const { alarm } of charts)
    expect(alarm?.yearsBetweenFalseSignals).toBeCloseTo((2 * limits.falseAlarmMonths) / 12, 9);
});

test("where none is kept, none can be false", () => {
  expect(monitorPlan([chart("small base", 5, 10)], limits)).toMatchObject({ alarms: 0, falseSignalChanceInAYear: 0 });
});
