import { expect, test } from "vitest";
import {
  audit,
  auditInSteps,
  checkColumns,
  checkInSteps,
  isChecked,
  periodOf,
  readMeasures,
} from "../../src/audit/index.ts";
import { readLineTable } from "../../src/contract/index.ts";
import type { CivilDate } from "../../src/core/calendar/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { timed } from "../../reference/by-hand/count/plain-row.ts";
import { generatedYear } from "../../reference/generated-year.ts";

// Two roads to one answer: the steps a page rests between give what the whole gives.
const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
const tableAgain = () => {
  const read = readLineTable(generatedYear(3, 20_000), timed("2026-01-01T12:00Z"));
  if (read.kind === "faults") throw new Error("not read");
  return read.table;
};
const [whole, stepped] = [tableAgain(), tableAgain()];

test("a table checked in steps has the issues, the stopped lines and the facts of one checked at once", () => {
  const rule = surveillance;
  let steps = 0;
  for (const _ of checkInSteps(stepped, limits, rule)) {
    steps += 1;
    expect(isChecked(stepped, limits, rule)).toBe(false);
  }
  // a scan over 20,000 lines rests at least once in its middle
  expect(steps).toBeGreaterThanOrEqual(10);
  expect(isChecked(stepped, limits, rule)).toBe(true);
  const [once, inSteps] = [checkColumns(whole, limits, rule), checkColumns(stepped, limits, rule)];
  expect(inSteps.issues).toEqual(once.issues);
  expect(inSteps.stopped).toEqual(once.stopped);
  expect(inSteps.facts.dwellDays).toEqual(once.facts.dwellDays);
  expect([...checkInSteps(stepped, limits, rule)]).toEqual([]);
});

test("a period counted in steps has the report of one counted at once, a rest after each measure", () => {
  const reading = readMeasures();
  if (reading.kind === "faults") throw new Error("the measures of the house are faulty");
  const rules = { limits, surveillance };
  const period = periodOf(whole, "2025-01-01" as CivilDate, "2026-01-01" as CivilDate);
  const steps = auditInSteps(stepped, reading.measures, period, [], rules);
  let [step, rests] = [steps.next(), 0];
  for (; !step.done; step = steps.next()) rests += 1;
  expect(rests).toBeGreaterThanOrEqual(reading.measures.length);
  expect(step.value).toEqual(audit(whole, reading.measures, period, [], rules));
});
