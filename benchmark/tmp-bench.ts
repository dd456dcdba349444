import { generatedYear } from "../reference/generated-year.ts";
import { readLineTable } from "../src/contract/index.ts";
import {
  audit,
  checkTable,
  periodOf,
  readMeasures,
  packedOf,
  checkColumns,
  monthPack,
  monitorService,
} from "../src/audit/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../src/policy/index.ts";
import { slowAudit } from "../reference/by-hand/count/slow-audit/slow-audit.ts";
const N = Number(process.argv[2] ?? 100000);
const t = <R>(name: string, f: () => R): R => {
  const c = process.cpuUsage();
  const s = performance.now();
  const r = f();
  const e = process.cpuUsage(c);
  console.log(
    name.padEnd(40),
    (performance.now() - s).toFixed(0).padStart(8),
    "ms wall",
    ((e.user + e.system) / 1000).toFixed(0).padStart(8),
    "ms cpu",
  );
  return r;
};
const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = surveillanceDefinitions[0]!;
const rules = { limits, surveillance };
const m = readMeasures();
if (m.kind === "faults") throw 1;
const asOf = { precision: "date", date: "2026-01-01" } as any;
const text = generatedYear(7, N);
const reading = t("read csv", () => readLineTable(text, asOf));
if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults.slice(0, 3)));
const table = reading.table;
t("pack", () => packedOf(table));
t("checkColumns", () => checkColumns(table, limits, surveillance));
const strata = [
  "ward",
  "size",
  "lumens",
  "vein",
  "third",
  "ratio band",
  "side",
  "attempts",
  "setting",
  "age band",
  "diagnosis",
  "inserter",
] as any;
const year = periodOf(table, "2025-01-01" as any, "2026-01-01" as any);
const half = periodOf(table, "2025-04-01" as any, "2025-07-01" as any);
for (let k = 0; k < 3; k++) {
  t("audit whole year, no strata", () => audit(table, m.measures, year, [], rules));
}
for (let k = 0; k < 3; k++) {
  t("audit quarter, no strata", () => audit(table, m.measures, half, [], rules));
}
for (let k = 0; k < 3; k++) {
  t("audit year, 12 strata", () => audit(table, m.measures, year, strata, rules));
}
if (process.argv[3]) {
  t("checkTable (objects)", () => checkTable(table, limits, surveillance));
  t("slow audit year", () => slowAudit(table, m.measures, year, [], rules));
  t("slow audit year, 12 strata", () => slowAudit(table, m.measures, year, strata, rules));
  for (let k = 0; k < 2; k++) t("month pack", () => monthPack(table, m.measures, "2025-12-01" as any, rules));
}
