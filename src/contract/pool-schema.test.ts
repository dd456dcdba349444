import { expect, test } from "vitest";
import { POOL_FORMAT, type PoolFile } from "../audit/index.ts";
import { readPoolText } from "./pool-schema.ts";

// A file of other hands: what its own numbers say against each other is told, by definition of who is at risk.
const stratum: PoolFile["strata"][number] = {
  stratum: "12",
  events: [22, null],
  lineDays: [2397, 2197],
  lines: [145, 137],
  atRisk: [
    [145, 137],
    [70, 59],
  ],
  ends: [
    [22, null],
    [0, 0],
  ],
};
const file: PoolFile = {
  format: POOL_FORMAT,
  service: "7",
  measure: "occlusion",
  clock: "calendar line-days, both ends",
  splitBy: "lumens",
  strataBy: "ward",
  periodDays: 365,
  widthDays: 14,
  smallestShown: 5,
  groups: ["1", "2"],
  strata: [stratum],
};
const faultsOf = (change: Partial<PoolFile>): readonly string[] => {
  const reading = readPoolText(JSON.stringify({ ...file, ...change }));
  return reading.kind === "faults" ? reading.faults.map(({ path, code }) => `${path} ${code}`) : [];
};
const withStratum = (change: Partial<typeof stratum>) => faultsOf({ strata: [{ ...stratum, ...change }] });

test("groups, wards and services named by digits are names", () => {
  expect(readPoolText(JSON.stringify(file))).toEqual({ kind: "pool", file });
});

test.each<[string, readonly string[], readonly string[]]>([
  ["a group twice", faultsOf({ groups: ["1", "1"] }), ["groups.1 twice"]],
  ["a stratum twice", faultsOf({ strata: [stratum, stratum] }), ["strata.1 twice"]],
  ["a split by person", faultsOf({ splitBy: "inserter" }), ["splitBy not-in-list"]],
  ["a name that turns the line round", faultsOf({ service: "\u202eX" }), ["service hidden-sign"]],
  ["events in no days", withStratum({ lineDays: [0, 2197] }), ["strata.0.events.0 contradicts"]],
  ["more at risk than placed", withStratum({ lines: [100, 137] }), ["strata.0.atRisk.0.0 contradicts"]],
  [
    "more that end than are at risk",
    withStratum({
      ends: [
        [22, null],
        [71, 0],
      ],
    }),
    ["strata.0.ends.1.0 contradicts"],
  ],
  ["a count below nought", withStratum({ events: [-1, null] }), ["strata.0.events.0 out-of-range"]],
  ["a count that is no whole number", withStratum({ events: [1.5, null] }), ["strata.0.events.0 wrong-type"]],
])("%s is refused", (_name, found, faults) => {
  expect(found).toEqual(faults);
});
