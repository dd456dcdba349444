import { expect, test } from "vitest";
import {
  checkTable,
  periodOf,
  pool,
  poolFile,
  timeToEvent,
  type LineFacts,
  type Measure,
  type Pooled,
  type PoolFile,
} from "../../../src/audit/index.ts";
import { logRank, riskTable } from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedYear } from "../../generated-year.ts";
import { day, golden, limits, measures, surveillance, table, tableOf } from "./counted-year.ts";

const occlusion = measures().find(({ id }) => id === "occlusion") as Measure;
const period = periodOf(table, day("2024-07-01"), day("2026-01-01"));
const fileOf = (service: string, facts: readonly LineFacts[], smallestShown: number, widthDays = 1): PoolFile =>
  poolFile(
    facts,
    period,
    { service, measure: occlusion, splitBy: "side", strataBy: "ward", widthDays, horizonDays: 600 },
    { limits: { ...limits, smallestShown }, surveillance },
  );
function pooled(files: readonly PoolFile[]): Pooled {
  const found = pool(
    files.map((file) => JSON.parse(JSON.stringify(file)) as PoolFile),
    0.95,
  );
  if ("kind" in found) throw new Error(`${found.field}: ${found.found.join(", ")}`);
  return found;
}
const inWards = (facts: readonly LineFacts[], wards: string) =>
  facts.filter(({ row }) => typeof row.ward === "string" && wards.includes(row.ward));

/** Two services that share the wards of the year between them, counted together, against R on the file as a whole. */
const { facts } = checkTable(table, limits, surveillance);
checkAgainst(
  {
    quantity: "Two services pooled from counts alone: stratified log-rank and Mantel-Haenszel ratio",
    unit: "relative",
    source: "R 4.2.2, survdiff on the joined file in whole days; Greenland and Robins 1985 by the R script",
    kind: "independent",
    tolerance: 1e-10,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    const both = pooled([fileOf("north", inWards(facts, "AB"), 1), fileOf("south", inWards(facts, "CDE"), 1)]);
    compare(
      "log-rank",
      both.logRank?.chiSquare ?? Number.NaN,
      golden["pooled log-rank side by ward, whole days"] as number,
    );
    const { mantelHaenszel: ratio } = both;
    if (ratio === undefined || typeof ratio === "string") throw new Error(String(ratio));
    compare("ratio", ratio.ratio.ratio, golden["pooled mh ratio"] as number);
    compare("lower", ratio.ratio.lower, golden["pooled mh lower"] as number);
    compare("upper", ratio.ratio.upper, golden["pooled mh upper"] as number);
  },
);

test("whole numbers pooled are the joined lines to the last digit", () => {
  const many = checkTable(tableOf(generatedYear(77, 3000)), limits, surveillance).facts;
  const width = 7;
  const files = ["AB", "C", "DE"].map((wards) => fileOf(wards, inWards(many, wards), 1, width));
  const joined = pooled([fileOf("all", many, 1, width)]);
  const apart = pooled(files);
  expect(apart.mantelHaenszel).toStrictEqual(joined.mantelHaenszel);
  expect(apart.logRank).toStrictEqual(joined.logRank);
  expect(apart.rates.map(({ stratum, group, events, days }) => [stratum, group, events, days])).toStrictEqual(
    joined.rates.map(({ stratum, group, events, days }) => [stratum, group, events, days]),
  );
  // and the joined lines themselves, grouped to the same width, by the test of the lines
  const tables = ["A", "B", "C", "D", "E"].map((ward) => {
    const { follow, lines } = timeToEvent(inWards(many, ward), occlusion);
    return riskTable({
      exit: follow.exit.map((exit) => Math.max(1, Math.ceil(exit / width - 1e-9))),
      end: follow.end.map((end) => Number(end === 1)),
      group: lines.map(({ row }) => Number(row.side === "right arm")),
    });
  });
  expect(apart.logRank?.chiSquare).toBe(logRank(tables, { kind: "log-rank" }, 1).statistic);
});

test("small cells leave no service, and what they keep out is counted", () => {
  const file = fileOf("north", inWards(facts, "AB"), limits.smallestShown, 14);
  const cells = file.strata.flatMap(({ ends, atRisk, events }) => [...ends.flat(), ...atRisk.flat(), ...events]);
  const small = cells.filter((cell) => cell !== null && cell > 0 && cell < limits.smallestShown);
  expect(small).toEqual([]);
  expect(cells).toContain(null);
  expect(pooled([file]).withheldIntervals).toBeGreaterThan(0);
  expect(JSON.stringify(file)).not.toMatch(/20\d\d-\d\d/);
});

test("files that count different things are not added", () => {
  const one = fileOf("north", inWards(facts, "AB"), 1);
  expect(pool([one, { ...one, service: "south", widthDays: 7 }], 0.95)).toMatchObject({ field: "widthDays" });
  expect(pool([one, one], 0.95)).toMatchObject({ field: "service", found: ["north"] });
});
