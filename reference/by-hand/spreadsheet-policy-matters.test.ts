import { describe, expect, test } from "vitest";
import type { CivilDate } from "../../src/core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom, tableWithValues, type PolicyTable } from "../../src/policy/index.ts";
import { isSheetRow } from "./need-keys.ts";
import { fileOfBytes, openSheet, previewFaults, suggestMatching } from "../../src/spreadsheet/index.ts";

/** Every limit of a spreadsheet is moved down and up, and the faults of a sheet at those limits must change. */
const rows = [
  "MRN,Date placed,Date removed,Age,Fr,Lumens,Vein diameter (mm),Length (cm),Attempts,DVT date",
  "1,2024-01-01,2024-12-31,115,1,3,0.6,4,10,2025-01-01",
  "2,2024-01-01,2024-02-01,40,7,1,10,65,1,",
].join("\n");
const today = "2026-01-15" as CivilDate;

async function faults(table: PolicyTable): Promise<string> {
  const sheet = await openSheet(fileOfBytes("limits.csv", new Uint8Array(Buffer.from(`${rows}\n`))));
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  const { matching } = suggestMatching(sheet);
  const preview = await previewFaults(sheet, { matching, limits: sheetLimitsFrom(table), today });
  if (preview.kind !== "preview") throw new Error(preview.kind);
  return JSON.stringify(preview.faults.map(({ row, code, column }) => [row, code, column]));
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
