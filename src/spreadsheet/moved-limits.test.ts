import { describe, expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import { fileOfBytes, openSheet, readRows, suggestMatching, swappedColumns, type Sheet } from "./index.ts";

// Every limit of a spreadsheet is a row of the policy: moved, it lets by what it told, or tells what it let by. The values
// are common practice, no source.
const today = "2026-01-15" as CivilDate;
type Limits = ReturnType<typeof sheetLimitsFrom>;

const limitsWith = (name: keyof typeof defaultPolicyTable, value: number | readonly number[]): Limits =>
  sheetLimitsFrom({ ...defaultPolicyTable, [name]: { ...defaultPolicyTable[name], value } });

async function sheetOf(lines: readonly string[]): Promise<Sheet> {
  const sheet = await openSheet(fileOfBytes("moved.csv", new TextEncoder().encode(`${lines.join("\n")}\n`)));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  return sheet;
}

async function codesOf(lines: readonly string[], limits: Limits): Promise<readonly string[]> {
  const sheet = await sheetOf(lines);
  const codes = new Set<string>();
  for await (const part of readRows(sheet, { matching: suggestMatching(sheet).matching, limits, today })) {
    if (part.kind === "refused") throw new Error(JSON.stringify(part));
    for (const { code } of part.faults) codes.add(code);
  }
  return [...codes];
}

const HEAD = "MRN,DOB,Date placed,Date removed,Fr,Lumens,Vein diameter (mm),Length (cm),Attempts";
const row = (change: Partial<Record<string, string>> = {}) => {
  const usual: Record<string, string> = {
    MRN: "41",
    DOB: "1960-02-03",
    "Date placed": "2025-05-01",
    "Date removed": "2025-05-09",
    Fr: "4",
    Lumens: "1",
    "Vein diameter (mm)": "4.5",
    "Length (cm)": "40",
    Attempts: "1",
  };
  return HEAD.split(",")
    .map((name) => ({ ...usual, ...change })[name] ?? "")
    .join(",");
};

describe("a moved limit moves what is told", () => {
  for (const [name, change, moved, code] of [
    ["sheet.oldest", { DOB: "1920-02-03" }, 101, "age impossible"],
    ["sheet.least-size", { Fr: "1.2", Lumens: "1" }, 1.5, "outside the usual"],
    ["sheet.most-size", { Fr: "6.5" }, 6, "outside the usual"],
    ["sheet.most-lumens", { Fr: "7", Lumens: "3" }, 2, "outside the usual"],
    ["sheet.narrowest-vein", { "Vein diameter (mm)": "1.2" }, 1.4, "outside the usual"],
    ["sheet.narrowest-vein-newborn", { Fr: "1", "Vein diameter (mm)": "0.8" }, 0.9, "outside the usual"],
    ["sheet.widest-vein", { "Vein diameter (mm)": "9" }, 8, "outside the usual"],
    ["sheet.shortest-inside", { "Length (cm)": "5" }, 6, "outside the usual"],
    ["sheet.longest-inside", { "Length (cm)": "60" }, 55, "outside the usual"],
    ["sheet.most-attempts", { Attempts: "9" }, 8, "outside the usual"],
    ["sheet.longest-stay", { "Date removed": "2025-09-01" }, 100, "long stay"],
    ["quality.least-size-of-lumens", { Fr: "4", Lumens: "3" }, [1, 1.9, 5, 5], "size against lumens"],
  ] as const)
    test(name, async () => {
      const lines = [HEAD, row(change)];
      expect(await codesOf(lines, sheetLimitsFrom(defaultPolicyTable))).not.toContain(code);
      expect(await codesOf(lines, limitsWith(name, moved))).toContain(code);
    });

  test("sheet.newborn-size: a line of more than it is no newborn's, and its vein is narrow", async () => {
    const lines = [HEAD, row({ Fr: "1.9", "Vein diameter (mm)": "0.8" })];
    expect(await codesOf(lines, sheetLimitsFrom(defaultPolicyTable))).toEqual([]);
    expect(await codesOf(lines, limitsWith("sheet.newborn-size", 1.5))).toEqual(["outside the usual"]);
    // a vein of 6 to 9 mm written in cm under a header of mm
    const wide = [HEAD, row({ "Vein diameter (mm)": "0.7" }), row({ MRN: "42", Fr: "", "Vein diameter (mm)": "0.9" })];
    expect(await codesOf(wide, sheetLimitsFrom(defaultPolicyTable))).toEqual(["outside the usual"]);
  });

  test("sheet.order-days: how far from its neighbours a placing is asked about", async () => {
    const days = Array.from({ length: 24 }, (_, at) => `2025-06-${String(1 + at).padStart(2, "0")}`);
    // the 6 May among days of June would be the 5 June
    days[4] = "2025-05-06";
    const lines = ["MRN,Date placed", ...days.map((day, at) => `${41 + at},${day}`)];
    expect(await codesOf(lines, sheetLimitsFrom(defaultPolicyTable))).toEqual(["day and month"]);
    expect(await codesOf(lines, limitsWith("sheet.order-days", 60))).toEqual([]);
  });

  test("sheet.kind-rows: how many rows of a kind of catheter tell which size is rare", async () => {
    const lines = [
      "MRN,Date placed,Catheter type,Fr",
      ...Array.from({ length: 30 }, (_, at) => `${41 + at},2025-06-01,A,4`),
    ];
    lines[9] = "99,2025-06-01,A,5";
    expect(await codesOf(lines, sheetLimitsFrom(defaultPolicyTable))).toEqual(["size against kind"]);
    expect(await codesOf(lines, limitsWith("sheet.kind-rows", 100))).toEqual([]);
  });

  // numbers that keep the check digit of the NHS number (NHS Data Dictionary, from memory), and one that does not
  test("sheet.check-digit-share: how many must keep their check digit before one is asked about", async () => {
    const keeping = Array.from({ length: 40 }, (_, at) => `94${String(3_100_000 + 37 * at)}`).flatMap((nine) => {
      const sum = Array.from(nine).reduce((total, digit, at) => total + Number(digit) * (10 - at), 0);
      const check = (11 - (sum % 11)) % 11;
      return check === 10 ? [] : [`${nine}${check}`];
    });
    const lines = ["MRN,Date placed", ...[...keeping, "9434765918"].map((number) => `${number},2025-06-01`)];
    expect(await codesOf(lines, sheetLimitsFrom(defaultPolicyTable))).toEqual(["check digit"]);
    expect(await codesOf(lines, limitsWith("sheet.check-digit-share", 1))).toEqual([]);
  });

  test("sheet.swapped-share: how many rows must be backwards before two columns look swapped", async () => {
    const pair = (at: number, backwards: boolean) =>
      `${41 + at},${backwards ? "2025-05-09,2025-05-01" : "2025-05-01,2025-05-09"}`;
    const sheet = await sheetOf([
      "MRN,Date placed,Date removed",
      ...Array.from({ length: 10 }, (_, at) => pair(at, at < 6)),
    ]);
    const { matching } = suggestMatching(sheet);
    expect(swappedColumns(matching, sheet, sheetLimitsFrom(defaultPolicyTable))).toEqual({
      placed: "Date placed",
      removed: "Date removed",
      backwards: 6,
      rows: 10,
    });
    expect(swappedColumns(matching, sheet, limitsWith("sheet.swapped-share", 0.7))).toBeUndefined();
  });
});
