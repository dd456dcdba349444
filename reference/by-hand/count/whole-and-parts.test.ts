import { describe, expect, test } from "vitest";
import {
  audit,
  checkTable,
  hazardModel,
  partGuards,
  periodOf,
  poolFile,
  rateModel,
  timeToEvent,
  type AuditTable,
  type Figure,
  type LineRow,
  type Measure,
} from "../../../src/audit/index.ts";
import { dated, happened, on, plainRow, removed, timed } from "./plain-row.ts";
import { houseMeasures, limits, rules, surveillance } from "../../house-rules.ts";

// What of a person's lines is counted once in the whole is counted once in the parts.

const measureOf = (id: string) => houseMeasures.find((one) => one.id === id) as Measure;
const infection = (text: string) => happened("infection", text, { surveillance: true, clinical: true });
const tableOf = (...lines: readonly LineRow[]): AuditTable => ({ asOf: dated("2025-12-31"), lines, referrals: [] });
const figuresOf = (table: AuditTable, id: string) =>
  audit(table, [measureOf(id)], periodOf(table, on("2025-01-01"), on("2025-07-01")), ["ward"], rules).figures;
const byWard = (figures: readonly Figure[]) =>
  figures.map(({ stratum, numerator }) => [stratum?.value ?? "all", numerator]);

// CDC/NHSN, Patient Safety Component Manual, ch. 2, repeat infection timeframe: of the patient, not of a place; the day of
// the event is day 1, the next may count on day 15 (from memory)
const movedWith = (...again: readonly string[]) =>
  tableOf(
    plainRow("A1", "2025-03-01", removed("2025-03-08"), { patient: "P", ward: "A", events: [infection("2025-03-05")] }),
    plainRow("B1", "2025-03-08", removed("2025-04-08"), { patient: "P", ward: "B", events: again.map(infection) }),
  );
// the 18th is day 14 of the first; 1 April day 15 of the 18th, and long after the first
const moved = movedWith("2025-03-18", "2025-04-01");

test("a repeat on another ward is no infection of that ward; on day 15 it is", () => {
  expect(byWard(figuresOf(moved, "infection-surveillance"))).toEqual([
    ["all", 2],
    ["A", 1],
    ["B", 1],
  ]);
  expect(byWard(figuresOf(movedWith("2025-03-18"), "infection-surveillance"))).toEqual([
    ["all", 1],
    ["A", 1],
    ["B", 0],
  ]);
  expect(byWard(figuresOf(movedWith("2025-03-19"), "infection-surveillance"))).toEqual([
    ["all", 2],
    ["A", 1],
    ["B", 1],
  ]);
  // what the ward concluded is never merged
  expect(byWard(figuresOf(moved, "infection-clinical"))).toEqual([
    ["all", 3],
    ["A", 1],
    ["B", 2],
  ]);
});

test("a pool file and the warnings of a part count as the whole does", () => {
  const period = periodOf(moved, on("2025-01-01"), on("2025-07-01"));
  const { facts } = checkTable(moved, limits, surveillance);
  const open = { limits: { ...limits, smallestShown: 1 }, surveillance };
  const measure = measureOf("infection-surveillance");
  const asked = { service: "x", measure, splitBy: "ward", strataBy: undefined, widthDays: 7, horizonDays: 28 } as const;
  expect(poolFile(facts, period, asked, open).strata[0]?.events).toEqual([1, 1]);
  // two events of one person on ward B would be warned of; one is not
  const told = (id: string) =>
    partGuards(moved, measureOf(id), period, ["ward"], rules).map(({ value, guards }) => [
      value,
      guards.filter(({ guard }) => guard === "eventsOfOnePerson").map(({ part }) => part),
    ]);
  expect(told("infection-surveillance")).toEqual([
    ["A", []],
    ["B", []],
  ]);
  expect(told("infection-clinical")).toEqual([
    ["A", []],
    ["B", [2]],
  ]);
});

// Delayed entry: a line that came with the patient is at risk here from when it is first seen, never before (Therneau TM,
// Grambsch PM 2000, Modeling Survival Data, ch. 3, from memory). Events and days are on one clock.
describe("a line that came with the patient", () => {
  const came = (...days: readonly string[]) =>
    tableOf(
      plainRow("A1", "2025-03-01", removed("2025-04-10"), {
        patient: "P",
        ward: "A",
        knownFrom: dated("2025-03-10"),
        events: days.map((day) => happened("occlusion", day)),
      }),
    );

  test("counts events from the day it was known, over the days from then", () => {
    const [whole] = figuresOf(came("2025-03-05", "2025-03-09", "2025-03-10", "2025-03-20"), "occlusion");
    // noon of 10 March to noon of 10 April: 31 days
    expect([whole?.numerator, whole?.denominator]).toEqual([2, 31]);
  });

  test("its history elsewhere is no fault of the record, before the placing it is", () => {
    const codes = (table: AuditTable) => checkTable(table, limits, surveillance).issues.map(({ code }) => code);
    expect(codes(came("2025-03-05"))).not.toContain("E1");
    expect(codes(came("2025-03-05"))).not.toContain("E2");
    expect(codes(came("2025-02-27"))).toContain("E1");
  });

  test("an infection before it was known sets no repeat frame here", () => {
    const table = tableOf(
      plainRow("A1", "2025-03-01", removed("2025-04-10"), {
        patient: "P",
        ward: "A",
        knownFrom: dated("2025-03-10"),
        events: [infection("2025-03-08"), infection("2025-03-12")],
      }),
    );
    expect(byWard(figuresOf(table, "infection-surveillance"))).toEqual([
      ["all", 1],
      ["A", 1],
    ]);
  });
});

// A line keeps the minute of its placing wherever it goes: common practice, no source.
describe("a line handed on that came back", () => {
  const minute = "2025-03-01T09:00Z";
  const handedOn = (text: string): LineRow["end"] => ({ kind: "handed on", at: timed(text) });
  const vein = { patient: "P", ward: "A", side: "left arm", vein: "basilic" } as const;
  const left = plainRow("A1", minute, handedOn("2025-03-11T09:00Z"), vein);
  const back = (knownFrom: string | undefined, placed = minute) =>
    plainRow("A2", placed, removed("2025-03-31T09:00Z"), {
      ...vein,
      knownFrom: knownFrom ? timed(knownFrom) : undefined,
    });
  const judged = (...lines: readonly LineRow[]) => {
    const { issues, facts } = checkTable(tableOf(...lines), limits, surveillance);
    const twice = issues.filter(({ code }) => code === "L1" || code === "L2").map(({ code }) => code);
    return [facts.length, twice];
  };

  test("is in two stays, whichever row stands first", () => {
    expect(judged(left, back("2025-03-21T09:00Z"))).toEqual([2, []]);
    expect(judged(back("2025-03-21T09:00Z"), left)).toEqual([2, []]);
    expect(judged(left, back("2025-03-11T09:00Z"))).toEqual([2, []]);
    // 10 days and 10 days, placed once
    const table = tableOf(left, back("2025-03-21T09:00Z"));
    expect(figuresOf(table, "line-days-exact")[0]?.numerator).toBe(20);
    expect(figuresOf(table, "placed")[0]?.numerator).toBe(1);
  });

  test("is written twice where the stays overlap, where it was never gone or was taken out", () => {
    expect(judged(left, back("2025-03-11T08:59Z"))).toEqual([1, ["L2"]]);
    expect(judged(left, back(undefined))).toEqual([1, ["L2"]]);
    expect(judged({ ...left, end: removed("2025-03-11T09:00Z") }, back("2025-03-21T09:00Z"))).toEqual([1, ["L2"]]);
    expect(judged(left, back("2025-03-21T09:00Z"), { ...back("2025-03-22T09:00Z"), key: "A3" })).toEqual([2, ["L2"]]);
    // another line in that vein is one all the same
    expect(judged(left, back("2025-03-21T09:00Z", "2025-03-05T09:00Z"))).toEqual([2, ["L1"]]);
  });
});

test("a ratio that cannot be is not known to a regression either", () => {
  // C1: 4 Fr in a vein of 1 mm is 133 %, above the most of the policy row count.ratio-possible
  const lines = Array.from({ length: 40 }, (_, at) =>
    plainRow(`A${at}`, "2025-03-01", removed("2025-04-10"), {
      sizeFr: 4,
      veinDiameterMm: at < 3 ? 1 : 3 + (at % 5) / 2,
      events: at % 2 === 0 ? [happened("occlusion", "2025-03-20")] : [],
    }),
  );
  const table = tableOf(...lines);
  const period = periodOf(table, on("2025-01-01"), on("2025-07-01"));
  const measure = measureOf("occlusion");
  const rate = rateModel(table, measure, period, ["ratio"], rules);
  expect(rate).toMatchObject({ kind: "fitted", used: 37, given: 40 });
  const { facts } = checkTable(table, limits, surveillance);
  const hazard = hazardModel(timeToEvent(facts, measure), ["ratio"], limits);
  expect(hazard).toMatchObject({ kind: "fitted", used: 37, given: 40 });
});
