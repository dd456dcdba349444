import { describe, expect, test } from "vitest";
import { monthPack, readMeasures, type AuditTable, type LineRow } from "../../audit/index.ts";
import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import { missing } from "../../core/missing/index.ts";
import { countLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../policy/index.ts";
import { packSheets } from "./pack-sheets.ts";

// Common practice, no source: what a meeting must find on its pack.
const on = (date: string) => ({ precision: "date" as const, date: date as CivilDate });
const not = missing("not asked");
const row: LineRow = {
  key: "L1",
  patient: "P1",
  placed: on("2025-11-03"),
  knownFrom: undefined,
  end: { kind: "in place", lastKnown: on("2025-12-08") },
  events: [],
  side: "left arm",
  vein: "basilic",
  sizeFr: 4,
  lumens: 1,
  veinDiameterMm: 4.2,
  writtenRatio: not,
  positionShare: 0.5,
  attempts: 1,
  inserter: "K. Maurer",
  ward: "A",
  setting: "ward",
  ageYears: 50,
  diagnosis: "other",
  indication: not,
  tipMethod: "film",
  tipPlace: not,
  lot: "X",
  catheter: "c",
  eGfr: not,
  overdueCare: ["dressing"],
  overrides: ["arm-barred"],
  idleDays: not,
  owned: false,
};
const lost: LineRow = {
  ...row,
  key: "L2",
  patient: "P2",
  end: { kind: "unknown", lastKnown: on("2025-11-20") },
};
const table: AuditTable = { asOf: on("2025-12-10"), lines: [row, lost], referrals: [] };
const reading = readMeasures();
if (reading.kind === "faults") throw new Error("the measures have faults");
const { measures } = reading;
const rules = { limits: countLimitsFrom(defaultPolicy.table), surveillance: surveillanceDefinitions[0] as never };
const printing = { policy: defaultPolicy, printedAt: "2025-12-10T09:00+01:00" as Instant, practice: true };
const sheets = (extra = {}) =>
  packSheets(monthPack(table, measures, "2025-11-01" as CivilDate, rules, extra), measures, printing);

describe("the monthly pack", () => {
  test("is four sheets, each marked as practice behind the page and in its foot", () => {
    expect(sheets()).toHaveLength(4);
    for (const sheet of sheets()) {
      expect(sheet.practice).not.toBe("");
      expect(sheet.foot).toContain(sheet.practice);
    }
  });

  test("says first that no action was written down", () => {
    const [first] = sheets();
    expect(first?.blocks.slice(0, 2).map((block) => ("text" in block ? block.text : ""))).toEqual([
      "Last month's action",
      "None was written down.",
    ]);
  });

  test("names no person who placed a line", () => {
    expect(JSON.stringify(sheets())).not.toContain("Maurer");
  });

  test("lists the line nobody answers for, its unknown end, its overdue care and its override", () => {
    const last = JSON.stringify(sheets()[3]);
    for (const words of ["Nobody answers for", "last known Thu 20 Nov 2025", "dressing", "arm-barred"])
      expect(last).toContain(words);
  });

  test("never says none of what no line answers, and counts those that do not where some do", () => {
    const asked = { ...table, lines: [row, lost].map((line) => ({ ...line, overrides: not, overdueCare: [] })) };
    const withOne = { ...asked, lines: [row, { ...lost, end: row.end, overdueCare: not }] };
    const fourth = (from: AuditTable) =>
      JSON.stringify(
        packSheets(monthPack(from, measures, "2025-11-01" as CivilDate, rules), measures, printing)[3]?.blocks,
      );
    expect(fourth(asked)).toContain(
      '"Stops overridden, twelve months"},{"kind":"say","text":"Not known for any of 2 lines."',
    );
    expect(fourth(asked)).toContain('"Care overdue"},{"kind":"say","text":"None."');
    expect(fourth(withOne)).toContain("Not known for 1 of 2 lines.");
  });

  test("gives no count and no limit to a kind of event of which the table holds no word", () => {
    const first = sheets()[0]?.blocks ?? [];
    expect(JSON.stringify(first)).toMatch(/Never written down: [^"]*tips that moved[^"]*may mean that nobody asks/);
    for (const block of first)
      if (block.kind === "table") expect(block.rows.map(([name]) => name)).not.toContain("Tips that moved");
    expect(JSON.stringify(first)).not.toMatch(/at most|cannot tell/);
  });

  test("prints a share of few lines as its two numbers, its limits in lines too, and no percentage", () => {
    const rows = (sheets()[0]?.blocks ?? []).flatMap((block) => (block.kind === "table" ? block.rows : []));
    const attempt = rows.find(([name]) => name === "In at the first attempt");
    // Clopper and Pearson 1934: the lower limit of 2 of 2 is 0.025^(1/2) = 0.158 of two
    expect(attempt?.[1]).toBe("2 of 2 (0.3 to 2.0)");
    expect(attempt?.join(" ")).not.toContain("%");
  });

  test("says the month in five numbers, and how many lines lack what", () => {
    const first = sheets()[0]?.blocks ?? [];
    const numbers = first.find((block) => block.kind === "numbers");
    const item = (label: string) =>
      numbers?.kind === "numbers" ? numbers.items.find((one) => one.label === label) : undefined;
    expect(item("Lines placed")?.value).toBe("2");
    expect(item("End not known")).toMatchObject({ value: "1", note: "of 2 lines" });
    expect(JSON.stringify(first)).toContain("Not written, of 2 lines: tip 2.");
  });

  test("splits stand in the order of the arm, the not known last, each named once", () => {
    const splits = sheets()[2]?.blocks.findLast((block) => block.kind === "table");
    const rows = splits?.kind === "table" ? splits.rows : [];
    expect(rows.filter(([name]) => name !== "").length).toBe(7);
    expect(rows.length).toBeGreaterThan(0);
  });
});
