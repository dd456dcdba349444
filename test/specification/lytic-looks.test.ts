import { describe, expect, test } from "vitest";
import type { Instant } from "../../src/core/calendar/index.ts";
import { sayLook } from "../../src/language/index.ts";
import { defaultPolicyTable, patencyLimitsFrom, tableWithValues } from "../../src/policy/index.ts";
import {
  CHAIN_START,
  evolveHistory,
  initialHistory,
  lineView,
  lyticLooks,
  measured,
  seal,
} from "../../src/register/index.ts";

// A look at 30 and at 120 min: label of alteplase for catheters. What closes a look: common practice, no source.

const limits = patencyLimitsFrom(defaultPolicyTable);
const at = (clock: string, day = "05") => `2026-03-${day}T${clock}+01:00` as Instant;
type Said = readonly [type: string, at: Instant, said: Record<string, unknown>];
const placed: Said = ["LineInserted", at("09:00", "02"), { patient: "x", arm: "right" }];
const dose = (clock: string): Said => [
  "PatencyStepTaken",
  at(clock),
  { step: "lytic", answer: "no change", doseMg: 2, volumeMl: 2 },
];
const step = (clock: string, answer: string): Said => ["PatencyStepTaken", at(clock), { step: "look", answer }];
const care = (clock: string, bloodReturn?: string): Said => [
  "CareGiven",
  at(clock),
  { outsideCm: 2, ...(bloodReturn ? { bloodReturn } : {}) },
];

const line = (said: readonly Said[]) =>
  lineView(
    [placed, ...said].reduce(
      (history, [type, happenedAt, data], index) =>
        evolveHistory(history, {
          ...seal({
            id: `e${index}`,
            subject: "line:a",
            type,
            shape: 1,
            happenedAt,
            writtenAt: happenedAt,
            author: { initials: "MK", role: "ward nurse", account: "" },
            device: "one",
            policyVersion: "p",
            seen: index,
            data: Object.fromEntries(Object.entries(data).map(([key, value]) => [key, measured(value as never)])),
          }),
          position: index + 1,
          version: index + 1,
          chainHash: CHAIN_START,
        }),
      initialHistory("line:a"),
    ),
  );
const due = (said: readonly Said[], now = at("17:00"), rules = limits) =>
  lyticLooks(line(said), now, rules).map((look) => look.at.slice(11, 16));

describe("after a dose of lytic", () => {
  test.each([
    ["nothing written: both looks, by the clock that showed the dose", [], ["14:35", "16:05"]],
    ["no blood at 14:36: the second is left", [step("14:36", "no change")], ["16:05"]],
    ["five minutes early is that look", [care("14:30", "no")], ["16:05"]],
    ["six minutes early is not", [care("14:29", "no")], ["14:35", "16:05"]],
    ["slow blood at the second look closes it", [care("16:05", "sluggish")], []],
    ["blood came back: none", [care("14:10", "yes")], []],
    ["it flows again: none", [step("14:35", "flows again")], []],
    ["a visit that did not try for blood closes nothing", [care("14:40")], ["14:35", "16:05"]],
    ["a second dose begins its own clock", [dose("16:10")], ["16:40", "18:10"]],
  ] as const)("%s", (_, since, expected) => {
    expect(due([dose("14:05"), ...since])).toEqual(expected);
  });

  test("no dose, no look; a step without a dose is none", () => {
    expect(due([step("14:05", "no change")])).toEqual([]);
  });
  test("a day later, or with the line out, nothing is asked", () => {
    expect(due([dose("14:05")], at("14:05", "06"))).toHaveLength(2);
    expect(due([dose("14:05")], at("14:06", "06"))).toEqual([]);
    expect(due([dose("14:05"), ["LineRemoved", at("15:00"), { reason: "treatment ended" }]])).toEqual([]);
  });
  test("over midnight the time of day is the next day's", () => {
    expect(due([dose("23:40")])).toEqual(["00:10", "01:40"]);
  });
  test("the times are the policy's", () => {
    const house = tableWithValues(defaultPolicyTable, {
      "care.lytic-first-check": 45,
      "care.lytic-second-check": 90,
    });
    expect(due([dose("14:05")], at("17:00"), patencyLimitsFrom(house))).toEqual(["14:50", "15:35"]);
  });
  test("said before and after its time", () => {
    expect(sayLook(at("14:35"), at("14:34"))).toBe("Look for blood at 14:35");
    expect(sayLook(at("14:35"), at("14:35"))).toBe("Look for blood now: due since 14:35");
  });
});
