import { expect, test } from "vitest";
import { audit, periodOf, readMeasures, type Figure } from "../../src/audit/index.ts";
import { readLineTable } from "../../src/contract/index.ts";
import { parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import { momentOf } from "../../src/core/dwell/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";

// A year of lines in which two blockages are dated and three are only "yes". What may count: docs/reference/measure.md,
// "not known, of a rate". Limits of a count: Garwood 1936, Biometrika 28:437, table values for 2 and 5 (from memory).

const asOf = momentOf(parseCivilDate("2026-01-15") as CivilDate, 60, 60);
const line = (key: string, from: string, to: string, events: string) => `${key},${key},${from},removed,${to},${events}`;
const rows = [
  "line_key,patient_key,placed_at,end_kind,end_at,events",
  line("a", "2025-03-01", "2025-03-21", "occlusion@2025-03-11"),
  line("b", "2025-03-01", "2025-03-31", "occlusion@2025-03-12"),
  line("c", "2025-03-01", "2025-03-21", "occlusion@not known"),
  line("d", "2025-03-25", "2025-04-14", "occlusion@not known; infection@not known"),
  line("e", "2025-05-01", "2025-05-11", "occlusion@not known"),
].join("\n");
const reading = readLineTable(rows, asOf);
if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
const { table } = reading;
const measures = readMeasures();
if (measures.kind === "faults") throw new Error(JSON.stringify(measures.faults));
const rules = {
  limits: countLimitsFrom(defaultPolicyTable),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
};
const figure = (id: string, from: string, to: string): Figure =>
  audit(table, measures.measures, periodOf(table, from as CivilDate, to as CivilDate), [], rules).figures.find(
    ({ measure }) => measure === id,
  ) as Figure;

test("a blockage of no day is in no count and in the upper bound: the rate is not over-sure", () => {
  const year = figure("occlusion", "2025-01-01", "2026-01-01");
  // 20 + 30 + 20 + 20 + 10 days
  expect([year.numerator, year.denominator, year.missing.count]).toEqual([2, 100, 3]);
  expect(year.value).toBeCloseTo(20, 10);
  expect(year.missing.bounds?.lower).toBeCloseTo(20, 10);
  expect(year.missing.bounds?.upper).toBeCloseTo(50, 10);
  expect(year.missing.outer?.lower).toBeCloseTo(2.42, 1);
  expect(year.missing.outer?.upper).toBeCloseTo(116.7, 1);
});

test("it may count in each period that its line lies in, and in no other", () => {
  const may = (from: string, to: string) => figure("occlusion", from, to).missing.count;
  expect(may("2025-03-01", "2025-04-01")).toBe(2);
  expect(may("2025-04-01", "2025-05-01")).toBe(1);
  expect(may("2025-05-01", "2025-06-01")).toBe(1);
  expect(may("2025-06-01", "2025-07-01")).toBe(0);
});

test("one of another kind adds to the sum of all kinds and to nothing else", () => {
  expect(figure("any-complication", "2025-01-01", "2026-01-01").missing.count).toBe(4);
  expect(figure("infection-clinical", "2025-01-01", "2026-01-01").missing.count).toBe(1);
  expect(figure("thrombosis", "2025-01-01", "2026-01-01").missing.count).toBe(0);
});
