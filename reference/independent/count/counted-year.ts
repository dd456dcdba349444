import { readFileSync } from "node:fs";
import { audit, periodOf, readMeasures, type AuditTable, type Measure } from "../../../src/audit/index.ts";
import { readLineTable } from "../../../src/contract/index.ts";
import { parseCivilDate, type CivilDate } from "../../../src/core/calendar/index.ts";
import { momentOf } from "../../../src/core/dwell/index.ts";
import { countLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../../src/policy/index.ts";

/** The invented year that R counted too: the table, the rules it is held to, and R's own numbers. */
const folder = "reference/independent/r";
export const yearText = readFileSync(`${folder}/count-year.csv`, "utf8");
export const golden = JSON.parse(readFileSync(`${folder}/count-year-golden.json`, "utf8")) as Record<string, number>;
export const day = (text: string) => parseCivilDate(text) as CivilDate;
export const limits = countLimitsFrom(defaultPolicy.table);

export function tableOf(text: string): AuditTable {
  const reading = readLineTable(text, momentOf(day("2026-01-01"), 60, 60));
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults.slice(0, 5)));
  return reading.table;
}

export function measures(): readonly Measure[] {
  const reading = readMeasures();
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  return reading.measures;
}

export const table = tableOf(yearText);
export const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
export const report = audit(
  table,
  measures(),
  periodOf(table, day("2025-01-01"), day("2026-01-01")),
  ["ward", "lumens", "ratio band"],
  {
    limits,
    surveillance,
  },
);
