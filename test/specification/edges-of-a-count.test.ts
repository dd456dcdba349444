import { describe, expect, test } from "vitest";
import { audit, checkTable, periodOf, readMeasures, type AuditTable, type LineRow } from "../../src/audit/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { dated, happened, on, plainRow, removed } from "../../reference/by-hand/count/plain-row.ts";

// What belongs to a period, worked by hand on a calendar: common practice, no source.

const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
const rules = { limits: countLimitsFrom(defaultPolicyTable), surveillance };
const read = readMeasures();
const measures = read.kind === "measures" ? read.measures : [];
const tableOf = (...lines: readonly LineRow[]): AuditTable => ({ asOf: dated("2025-06-01"), lines, referrals: [] });
const figure = (table: AuditTable, id: string, from = "2025-03-01", to = "2025-04-01") => {
  const found = audit(table, measures, periodOf(table, on(from), on(to)), [], rules).figures;
  const own = found.find(({ measure, stratum }) => measure === id && stratum === undefined);
  if (!own) throw new Error(id);
  return own;
};

describe("given a line that came with the patient and lay unused for longer than it was known here", () => {
  const came = plainRow("came", "2025-02-01", removed("2025-03-20"), {
    knownFrom: dated("2025-03-10"),
    idleDays: 30,
  });

  test("when its idle days are counted, then they are those of its days here and never more", () => {
    // noon of the 10th to noon of the 20th: ten days, all of them idle
    expect(figure(tableOf(came), "idle-days")).toMatchObject({ numerator: 10, denominator: 10, value: 1 });
  });

  test("when the period cuts its end, then idle days and line-days are cut at the same midnight", () => {
    // 4 idle days: noon of the 16th to noon of the 20th; to midnight of the 18th: a day and a half of seven and a half
    const table = tableOf({ ...came, idleDays: 4 });
    expect(figure(table, "idle-days", "2025-03-01", "2025-03-18")).toMatchObject({ numerator: 1.5, denominator: 7.5 });
  });
});

describe("given a line handed on and a line lost sight of, both in May", () => {
  const table = tableOf(
    plainRow("on", "2025-03-05", { kind: "handed on", at: dated("2025-05-02") }),
    plainRow("lost", "2025-03-05", { kind: "unknown", lastKnown: dated("2025-05-02") }),
    plainRow("lost in March", "2025-03-05", { kind: "unknown", lastKnown: dated("2025-03-31") }),
    plainRow("on in March", "2025-03-05", { kind: "handed on", at: dated("2025-03-31") }),
  );

  test("when March is counted, then what May wrote is not March's", () => {
    expect(figure(table, "handed-on").lines).toEqual(["on in March"]);
    expect(figure(table, "unknown-end").lines).toEqual(["lost in March"]);
    expect(figure(table, "in-place").lines).toEqual(["on", "lost"]);
  });

  test("when May is counted, then each is in one place only", () => {
    const may = (id: string) => figure(table, id, "2025-05-01", "2025-06-01").lines;
    expect(may("handed-on")).toEqual(["on"]);
    expect(may("unknown-end")).toEqual(["lost", "lost in March"]);
    expect(may("in-place")).toEqual([]);
  });
});

describe.each([
  ["infection", "infection-clinical", "infection"],
  ["clot", "thrombosis", "thrombosis"],
  ["blocked", "occlusion", "occlusion"],
  ["tip moved", "migration", "migration"],
  ["came out", "dislodgement", "dislodgement"],
  ["leak or break", "leak-or-break", "leak or break"],
] as const)("given a line out for the reason %s, and no such event written", (reason, id, kind) => {
  // one line elsewhere with the event, so that the kind is known to be written here
  const other = plainRow("other", "2025-01-05", removed("2025-01-20"), {
    events: [happened(kind, "2025-01-10", { clinical: true })],
  });
  const silent = plainRow("silent", "2025-03-05", removed("2025-03-15", reason));

  test("when the record is checked, then the line is told, and the bounds hold the event", () => {
    const table = tableOf(other, silent);
    const { issues } = checkTable(table, rules.limits, surveillance);
    expect(issues.find(({ code }) => code === "E5")?.lines).toEqual(["silent"]);
    const { numerator, missing } = figure(table, id);
    // none or one in ten days
    expect([numerator, missing.count, missing.bounds]).toEqual([0, 1, { lower: 0, upper: 100 }]);
  });

  test("when the event is written, then nothing is asked and nothing is in doubt", () => {
    const told = { ...silent, events: [happened(kind, "2025-03-15", { clinical: true })] };
    const table = tableOf(other, told);
    expect(checkTable(table, rules.limits, surveillance).issues.filter(({ code }) => code === "E5")).toEqual([]);
    expect(figure(table, id)).toMatchObject({ numerator: 1, missing: { count: 0 } });
  });
});
