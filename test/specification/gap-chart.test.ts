import { describe, expect, test } from "vitest";
import { gapChart, readMeasures, type AuditTable, type GapForm, type Measure } from "../../src/audit/index.ts";
import { addDays, type CivilDate } from "../../src/core/calendar/index.ts";
import { gapLines } from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";

// Rare events are charted by the line-days between them (common practice, no source; limits by Nelson 1994 and by the
// exponential). One line is in place all the time, so that a line-day is a day and the gaps can be told from the calendar.

const rules = {
  limits: countLimitsFrom(defaultPolicyTable),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
};
const reading = readMeasures();
const occlusion = (reading.kind === "measures" ? reading.measures : []).find(({ id }) => id === "occlusion") as Measure;
const period = (from: string, to: string) => ({ from: on(from), to: on(to), fromOffset: 0, toOffset: 0 });
const base = period("2024-01-01", "2025-01-01");
const now = period("2025-01-01", "2025-06-01");

/** Blocked on 11 January 2024 and then every so many days after the one before. */
function blocked(steps: readonly number[]): AuditTable {
  const dates = steps.reduce<CivilDate[]>(
    (all, step) => [...all, addDays(all.at(-1) as CivilDate, step)],
    [on("2024-01-11")],
  );
  const events = dates.map((date) => happened("occlusion", date));
  const line = plainRow("A", "2023-12-30T12:00Z", removed("2025-05-31T12:00Z"), { events });
  return { asOf: timed("2025-06-15T12:00Z"), lines: [line], referrals: [] };
}
const tenDays = Array<number>(35).fill(10); // the last of them on 26 December
const chart = (steps: readonly number[], form: GapForm) => gapChart(blocked(steps), occlusion, base, now, form, rules);

describe("given a base of a blocked line every ten days", () => {
  test("when a gap of 66 days comes, then the exponential limit of 66.08 is not passed, and 67 days pass it", () => {
    const within = chart([...tenDays, 66], "exponential");
    const beyond = chart([...tenDays, 67, 5], "exponential");
    if (within.kind !== "charted" || beyond.kind !== "charted") throw new Error("no limits");
    // -10 ln 0.00135, and 10 ln 2
    expect(within.upper).toBeCloseTo(66.0766, 3);
    expect(within.centre).toBeCloseTo(6.9315, 3);
    expect(within.gaps.map(({ lineDays, outside }) => [lineDays, outside])).toEqual([[66, undefined]]);
    expect(beyond.gaps.map(({ lineDays, outside }) => [lineDays, outside])).toEqual([
      [67, "long"],
      [5, undefined],
    ]);
  });

  test("when the gaps never varied, then by their power every other gap stands out", () => {
    const found = chart([...tenDays, 11, 9], "power");
    if (found.kind !== "charted") throw new Error("no limits");
    expect(found.upper).toBeCloseTo(10, 9);
    expect(found.gaps.map(({ outside }) => outside)).toEqual(["long", "short"]);
  });

  test("when two come on one day, then the gap of nought is shown and not judged", () => {
    const found = chart([...tenDays, 10, 0], "exponential");
    if (found.kind !== "charted") throw new Error("no limits");
    expect(found.gaps.at(-1)).toMatchObject({ lineDays: 0, outside: undefined });
    expect(gapLines(found).join("\n")).toContain("the same day as the one before");
  });

  test("when nothing has come for 50 days, then the chance of so long is said", () => {
    const found = chart(tenDays, "exponential");
    if (found.kind !== "charted") throw new Error("no limits");
    // 27 December to noon of 31 May
    expect(found.sinceLast).toBeCloseTo(155.5, 9);
    expect(found.chanceOfSoLong).toBeCloseTo(Math.exp(-15.55), 12);
  });
});

test("given a base of few gaps, when a chart is asked, then it has no limits and says how many are needed", () => {
  const found = chart([30, 30, 30], "power");
  expect(found).toMatchObject({ kind: "base too small", baseGaps: 3, needed: rules.limits.baseEvents });
  expect(gapLines(found).join(" ")).toContain("The base has 3 gaps");
});

test("given a base that ends before the period, or a measure without days, then the chart is refused", () => {
  expect(() => gapChart(blocked(tenDays), occlusion, base, period("2025-02-01", "2025-06-01"), "power", rules)).toThrow(
    "one begins where the other ends",
  );
  const share = (reading.kind === "measures" ? reading.measures : []).find(
    ({ id }) => id === "first-attempt",
  ) as Measure;
  expect(() => gapChart(blocked(tenDays), share, base, now, "power", rules)).toThrow("counts no events over days");
});
