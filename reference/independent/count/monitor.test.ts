import { expect, test } from "vitest";
import {
  armMap,
  checkTable,
  countEvents,
  dailyDays,
  learningCurve,
  monitorPlan,
  sharedExposures,
  watch,
  type LineFacts,
  type Measure,
} from "../../../src/audit/index.ts";
import { dayNumber } from "../../../src/core/calendar/index.ts";
import { lineDays, NOON } from "../../../src/core/dwell/index.ts";

import { checkAgainst } from "../../check.ts";
import { plainRow, removed } from "../../by-hand/count/plain-row.ts";
import { day, limits, measures, surveillance, table } from "./counted-year.ts";
import { periodOf } from "../../../src/audit/index.ts";

/** One chart with a quiet base of 40 events that expects so many a year, at five years between false signals. */
const planFor = (expected: number, watchRatio = 2) =>
  monitorPlan([{ name: "one", baseEvents: 40, baseDays: 40_000, daysPerYear: expected * 1000 }], {
    ...limits,
    falseAlarmMonths: 60,
    watchRatio,
  }).charts[0]?.alarm;

// E events a year: decision limit, months until a doubling shows, events by then
const TABLE = [
  [3, 1.80825, 12.18, 6.1],
  [6, 2.31682, 8.47, 8.5],
  [10, 2.7288, 6.29, 10.5],
  [20, 3.33172, 4.04, 13.5],
  [30, 3.70051, 3.07, 15.3],
  [60, 4.35092, 1.87, 18.7],
  [90, 4.73987, 1.38, 20.7],
  [240, 5.69718, 0.64, 25.6],
] as const;

checkAgainst(
  {
    quantity: "Decision limits of a service's charts at five years between false signals",
    unit: "log likelihood ratio",
    source: "R 4.2.2, Markov chain embedded at events, grid 500 to 1200",
    kind: "independent",
    tolerance: 5e-4,
    comparisons: TABLE.length,
  },
  (compare) => {
    for (const [expected, decision] of TABLE)
      compare(`${expected} a year`, planFor(expected)?.decision ?? Number.NaN, decision);
  },
);

checkAgainst(
  {
    quantity: "Months and events until a doubling shows",
    unit: "relative",
    source: "R 4.2.2, Markov chain embedded at events, grid 500 to 1200, printed to two decimals",
    kind: "independent",
    tolerance: 0.012,
    relative: true,
    comparisons: 2 * TABLE.length,
  },
  (compare) => {
    for (const [expected, , months, events] of TABLE) {
      compare(`${expected} a year, months`, planFor(expected)?.monthsToShow ?? Number.NaN, months);
      compare(`${expected} a year, events`, planFor(expected)?.eventsToShow ?? Number.NaN, events);
    }
  },
);

checkAgainst(
  {
    quantity: "Steps and limit of a learning curve, 0.10 against 0.20, errors 0.1",
    unit: "attempts, in steps of a miss and a hit together",
    source: "Bolsin and Colson 2000, Int J Qual Health Care 12:433, method (from memory): +0.855, -0.145, limit 2.71",
    kind: "published",
    tolerance: 5e-3,
    comparisons: 3,
  },
  (compare) => {
    const lines = [2, 1, 1].map((attempts, at) => ({
      row: plainRow(`L${at}`, `2025-03-0${at + 1}`, removed("2025-04-01"), { inserter: "S1", attempts }),
      placedOn: dayNumber(day(`2025-03-0${at + 1}`)),
    })) as unknown as readonly LineFacts[];
    const { cases, limit } = learningCurve(lines, "S1", limits);
    const scale = Math.log(0.2 / 0.1) + Math.log(0.9 / 0.8);
    compare("a miss", (cases[0]?.sum ?? Number.NaN) / scale, 0.855);
    compare("a hit", ((cases[1]?.sum ?? Number.NaN) - (cases[0]?.sum ?? 0)) / scale, -0.145);
    compare("limit", limit / scale, 2.71);
  },
);

checkAgainst(
  {
    quantity: "Chance that four lines of a cluster share a ward that has a fifth of all lines",
    unit: "chance",
    source: "0.2 to the fourth power",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 2,
  },
  (compare) => {
    const facts = (ward: string, at: number) =>
      ({ row: plainRow(`${ward}${at}`, "2025-03-01", removed("2025-03-09"), { ward }) }) as unknown as LineFacts;
    const all = Array.from({ length: 100 }, (_, at) => facts(at < 20 ? "A" : "B", at));
    const { shared } = sharedExposures(all.slice(0, 4), all, limits);
    compare("chance", shared[0]?.chance ?? Number.NaN, 0.2 ** 4);
    compare("after looking at one", shared[0]?.chanceAfterLooking ?? Number.NaN, 0.2 ** 4);
  },
);

const { facts } = checkTable(table, limits, surveillance);
const period = periodOf(table, day("2025-01-01"), day("2026-01-01"));
const occlusion = measures().find(({ id }) => id === "occlusion") as Measure;
const rules = { limits, surveillance, provisionalFrom: day("2025-12-18") };

checkAgainst(
  {
    quantity: "Line-days of each day of a year, added up",
    unit: "relative",
    source: "line-days of the whole window, counted line by line (statistics: exact and calendar clocks)",
    kind: "by-hand",
    tolerance: 1e-11,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    for (const clock of ["exact line-days", "calendar line-days, both ends"] as const) {
      const whole = lineDays(
        facts.flatMap(({ stay }) => (stay ? [stay] : [])),
        period,
        clock,
        NOON,
      );
      compare(
        clock,
        dailyDays(facts, period, clock).reduce((a, b) => a + b, 0),
        whole.days,
      );
    }
  },
);

test("the sum is the one a slow hand keeps, day by day", () => {
  const kept = watch(facts, occlusion, period, { events: 30, days: 9000 }, 2.5, rules);
  const numerator = occlusion.numerator as Extract<Measure["numerator"], { count: "events" }>;
  let sum = 0;
  let signals = 0;
  for (const [at, point] of kept.points.entries()) {
    const date = dayNumber(day("2025-01-01")) + at;
    const own = countEvents(facts, numerator, period, surveillance).counted.filter(({ on }) => on === date).length;
    sum = Math.max(0, sum + own * Math.LN2 - (30 / 9000) * point.lineDays);
    expect(point.sum).toBeCloseTo(sum, 9);
    if (sum >= 2.5) {
      signals += 1;
      sum = 0;
    }
  }
  expect(kept.signals.length).toBe(signals);
  expect(signals).toBeGreaterThan(0);
  for (const signal of kept.signals) expect(signal.lines.length).toBe(signal.events);
});

test("cells of the arm map hold the lines of their place and no others", () => {
  const map = armMap(table, occlusion, period, "position along the arm", rules);
  const slow = Array.from({ length: 18 }, () => 0);
  for (const { row, stay } of facts) {
    if (!stay || typeof row.positionShare !== "number") continue;
    const cell = Math.min(17, Math.floor(row.positionShare * 18 + 1e-9));
    slow[cell] = (slow[cell] ?? 0) + lineDays([stay], period, "exact line-days", NOON).days;
  }
  for (const [at, cell] of map.cells.entries()) expect(cell.lineDays).toBeCloseTo(slow[at] ?? 0, 6);
  expect(map.cells[0]?.grey).toBe(true);
  expect(map.cells[8]?.grey).toBe(false);
  expect(map.given).toBeGreaterThan(map.used);
});
