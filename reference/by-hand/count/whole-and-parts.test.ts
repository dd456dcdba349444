import { expect, test } from "vitest";
import {
  audit,
  checkTable,
  partGuards,
  periodOf,
  poolFile,
  readMeasures,
  type AuditTable,
  type Figure,
  type LineRow,
  type Measure,
} from "../../../src/audit/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../../src/policy/index.ts";
import { dated, happened, on, plainRow, removed } from "./plain-row.ts";

// What of a person's lines is counted once in the whole is counted once in the parts.

const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
const rules = { limits, surveillance };
const reading = readMeasures();
if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
const measureOf = (id: string) => reading.measures.find((one) => one.id === id) as Measure;
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
