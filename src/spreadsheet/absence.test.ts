import { createHmac } from "node:crypto";
import { expect, test } from "vitest";
import { lineTableCsv } from "../audit/index.ts";
import { readLineTable } from "../contract/index.ts";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import { fileOfBytes, lineRowOf, openSheet, readRows, saltedKeys, suggestMatching, type SheetLine } from "./index.ts";

const today = "2026-01-15" as CivilDate;
const salt = Uint8Array.from({ length: 16 }, (_, at) => at);

async function linesOf(text: string): Promise<readonly SheetLine[]> {
  const sheet = await openSheet(fileOfBytes("year.csv", new Uint8Array(Buffer.from(text))));
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  const { matching } = suggestMatching(sheet);
  const lines: SheetLine[] = [];
  for await (const part of readRows(sheet, { matching, limits: sheetLimitsFrom(defaultPolicyTable), today }))
    if (part.kind === "rows") lines.push(...part.lines);
  return lines;
}

test("what people write for nothing is the right one of the four absences", async () => {
  const words = ["", "-", "n/k", "Unknown", "?", "not done", "n/a measured", "declined", "Refused", "n/a"];
  const text = ["MRN,Date placed,Arm,Ward,Attempts", ...words.map((word, at) => `${at},2025-05-01,L,${word},1`)].join(
    "\n",
  );
  const rows = (await linesOf(text)).map((line) => lineRowOf(line, saltedKeys(salt)));
  expect(rows.map(({ ward }) => (typeof ward === "string" ? ward : ward.missing))).toEqual([
    "not asked",
    "not asked",
    "not known",
    "not known",
    "not known",
    "not measured",
    "not measured",
    "refused",
    "refused",
    "not known",
  ]);
  // a column the sheet has not was not asked; a value that was not taken is not known
  expect(rows[0]?.vein).toEqual({ missing: "not asked" });
  const [wrong] = await linesOf("MRN,Date placed,Arm,Attempts\n1,2025-05-01,L,two");
  expect(wrong && lineRowOf(wrong, saltedKeys(salt)).attempts).toEqual({ missing: "not known" });
});

test("keys are HMAC-SHA-256 under the salt, as Node's own crypto gives it, and another salt gives others", () => {
  const expected = createHmac("sha256", salt).update("patient|410032").digest("hex").slice(0, 16);
  expect(saltedKeys(salt)("patient", "410032")).toBe(`P${expected}`);
  expect(saltedKeys(new Uint8Array(16))("patient", "410032")).not.toBe(`P${expected}`);
  expect(() => saltedKeys(new Uint8Array(8))).toThrow(RangeError);
});

test("tip, use, site and place along the arm come with the line, and the table reads back the same", async () => {
  const text = [
    "MRN,Date placed,Date removed,Arm,Fr,Tip position,Indication,Position along arm,Exit site infection,Migration date",
    "41,2025-05-01,2025-05-19,L,4,CAJ,IV antibiotics,62,2025-05-10,",
    "41,2025-06-01,2025-06-19,R,18,SVC,TPN,140,,2025-06-04",
    "42,2025-06-01,,R,4,lower SVC,chemo and TPN,55 %,,",
    "43,2025-06-02,,R,4,right atrium,chemo,50,,",
  ].join("\n");
  const rows = (await linesOf(text)).map((line) => lineRowOf(line, saltedKeys(salt)));
  expect(rows.map(({ tipPlace }) => tipPlace)).toEqual([
    "cavo-atrial junction",
    { missing: "not known" },
    "lower third of the cava",
    "right atrium",
  ]);
  expect(rows.map(({ indication }) => indication)).toEqual([
    "antimicrobial",
    "parenteral nutrition",
    { missing: "not known" },
    "chemotherapy",
  ]);
  expect(rows.map(({ positionShare }) => positionShare)).toEqual([0.62, { missing: "not known" }, 0.55, 0.5]);
  expect(rows[1]?.sizeFr).toEqual({ missing: "not known" });
  expect(rows.flatMap(({ events }) => events.map(({ kind }) => kind))).toEqual(["exit site infection", "migration"]);
  expect(rows[0]?.patient).toBe(rows[1]?.patient);
  const read = readLineTable(lineTableCsv(rows), { precision: "date", date: today });
  expect(read.kind === "table" && read.table.lines).toEqual(rows);
});
