import { describe, expect, test } from "vitest";
import type { CivilDate } from "../../src/core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom, tableWithValues, type PolicyTable } from "../../src/policy/index.ts";
import { isSheetRow } from "./need-keys.ts";
import { fileOfBytes, openSheet, previewFaults, suggestMatching, swappedColumns } from "../../src/spreadsheet/index.ts";

/** Every limit of a spreadsheet is moved down and up, and the faults of a sheet at those limits must change. */
const rows = [
  "MRN,Date placed,Date removed,Age,Fr,Lumens,Vein diameter (mm),Length (cm),Attempts,DVT date",
  "1,2024-01-01,2024-12-31,115,1,3,0.6,4,10,2025-01-01",
  "2,2024-01-01,2024-02-01,40,7,1,10,65,1,",
  // a vein as narrow as is asked about, and one that only a newborn's line may lie in
  "3,2024-03-01,2024-04-01,40,4,1,1,40,1,",
  "4,2024-03-01,2024-04-01,1,2,1,0.8,20,1,",
].join("\n");

/** Half of the rows out before they were in. */
const halfSwapped = [
  "MRN,Date placed,Date removed",
  ...Array.from({ length: 20 }, (_, at) => `${100 + 7 * at},2024-0${at < 10 ? "5-01,2024-06-01" : "6-01,2024-05-01"}`),
].join("\n");

/** Twenty-four rows three days apart, ten of one kind of catheter; one day swapped, one size and one check digit odd. */
const beside = (() => {
  const lines = ["MRN,Date placed,Catheter,Fr"];
  for (let at = 0; lines.length <= 24; at += 1) {
    const nine = String(943_476_500 + at);
    const sum = Array.from(nine).reduce((total, digit, place) => total + Number(digit) * (10 - place), 0);
    const check = (11 - (sum % 11)) % 11;
    if (check === 10) continue;
    const row = lines.length - 1;
    const placed = new Date(Date.UTC(2025, 0, 4 + 3 * row)).toISOString().slice(0, 10);
    lines.push(
      [
        `${nine}${row === 5 ? (check + 1) % 10 : check}`,
        // 3 February as 2 March: fifteen days beyond the second greatest of its neighbours, 15 February
        row === 10 ? "2025-03-02" : placed,
        row < 10 ? "A" : "B",
        row === 3 ? 5 : 4,
      ].join(","),
    );
  }
  return lines.join("\n");
})();
const today = "2026-01-15" as CivilDate;

const faults = async (table: PolicyTable): Promise<string> =>
  `${await faultsOf(rows, table)} ${await faultsOf(beside, table)} ${await faultsOf(halfSwapped, table)}`;

async function faultsOf(text: string, table: PolicyTable): Promise<string> {
  const sheet = await openSheet(fileOfBytes("limits.csv", new Uint8Array(Buffer.from(`${text}\n`))));
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  const { matching } = suggestMatching(sheet);
  const preview = await previewFaults(sheet, { matching, limits: sheetLimitsFrom(table), today });
  if (preview.kind !== "preview") throw new Error(preview.kind);
  const swapped = swappedColumns(matching, sheet, sheetLimitsFrom(table));
  return JSON.stringify([swapped, ...preview.faults.map(({ row, code, column }) => [row, code, column])]);
}

describe("every limit of a spreadsheet matters", () => {
  for (const [key, row] of Object.entries(defaultPolicyTable)) {
    if (!isSheetRow(key)) continue;
    test(key, async () => {
      const before = await faults(defaultPolicyTable);
      const moved = [0.9, 1.1].map((times) =>
        tableWithValues(defaultPolicyTable, { [key]: (row.value as number) * times }),
      );
      const after = await Promise.all(moved.map(faults));
      expect(after.some((one) => one !== before)).toBe(true);
    });
  }
});
