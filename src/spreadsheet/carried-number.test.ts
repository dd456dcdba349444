import { expect, test } from "vitest";
import { partsOfBook, rowOfTexts, zipOfParts } from "../../test/zip-of-parts.ts";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import {
  fileOfBytes,
  matchingQuestions,
  openSheet,
  readMatching,
  readRows,
  suggestMatching,
  type Matching,
  type Sheet,
  type WithoutNumber,
} from "./index.ts";

// One number over several rows, merged or left blank below: common practice in hand-kept lists, no source.
const limits = sheetLimitsFrom(defaultPolicyTable);
const today = "2026-01-15" as CivilDate;
const HEAD = ["MRN", "DOB", "Date placed", "Date removed"];

async function sheetOf(bytes: Uint8Array): Promise<Sheet> {
  const sheet = await openSheet(fileOfBytes("lines", bytes));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  return sheet;
}
const csv = (...rows: readonly string[]) =>
  sheetOf(new TextEncoder().encode(`${[HEAD.join(","), ...rows].join("\n")}\n`));

const answered = (sheet: Sheet, withoutNumber?: WithoutNumber): Matching => {
  const { matching } = suggestMatching(sheet);
  const columns = matching.columns.map((column) =>
    column.field === "patient" && withoutNumber ? { ...column, withoutNumber } : column,
  );
  return { ...matching, columns, confirmedBy: "ab" };
};

async function read(sheet: Sheet, withoutNumber: WithoutNumber) {
  const [lines, faults]: [string[], string[]] = [[], []];
  for await (const part of readRows(sheet, { matching: answered(sheet, withoutNumber), limits, today })) {
    if (part.kind === "refused") throw new Error(JSON.stringify(part));
    for (const { row, code, found, against } of part.faults) faults.push(`${row} ${code} ${found} ${against}`.trim());
    if (part.kind === "rows") for (const { row, patient } of part.lines) lines.push(`${row} ${patient}`);
  }
  return { lines, faults };
}

test("a number written once above several rows is asked about, and carried only by a person's word", async () => {
  const sheet = await csv("41,1960-02-03,2025-05-01,2025-05-09", ",,2025-06-01,2025-06-05", ",1960-02-03,2025-07-01,");
  expect(matchingQuestions(answered(sheet), sheet)).toEqual([{ code: "number above not said", header: "MRN" }]);
  expect(matchingQuestions(answered(sheet, "left out"), sheet)).toEqual([]);
  const left = await read(sheet, "left out");
  expect(left.lines).toEqual(["2 41"]);
  expect(left.faults).toEqual(["3 no patient", "4 no patient"]);
  const carried = await read(sheet, "the number above");
  expect(carried.lines).toEqual(["2 41", "3 41", "4 41"]);
  expect(carried.faults).toEqual(["3 number carried down 41 row 2", "4 number carried down 41 row 2"]);
});

test("a number is not carried to another birth date, over an empty row, or to a row that is no line", async () => {
  const sheet = await csv(
    "41,1960-02-03,2025-05-01,2025-05-09",
    ",1971-01-01,2025-06-01,",
    ",,2025-06-02,",
    "42,1980-01-01,2025-06-03,2025-06-04",
    ",,,",
    ",,2025-08-02,",
    "43,1980-01-01,2025-06-03,",
    ",,,seen",
  );
  const { lines, faults } = await read(sheet, "the number above");
  expect(lines).toEqual(["2 41", "5 42", "8 43"]);
  expect(faults.filter((one) => one.includes("carried"))).toEqual([]);
  expect(faults.filter((one) => one.includes("no patient")).map((one) => Number(one.split(" ")[0]))).toEqual([
    3, 4, 7, 9,
  ]);
});

test("merged cells of the number are carried as blanks are, each row told; other merged cells are told as before", async () => {
  const sheet = await sheetOf(
    zipOfParts(
      partsOfBook({
        sheets: {
          Lines: `<sheetData>${rowOfTexts(1, HEAD)}${rowOfTexts(2, ["41", "1960-02-03", "2025-05-01", "2025-05-09"])}${rowOfTexts(3, ["", "", "2025-06-01", "2025-06-05"])}</sheetData><mergeCells><mergeCell ref="A2:A3"/><mergeCell ref="B2:B3"/></mergeCells>`,
        },
      }),
    ),
  );
  const { lines, faults } = await read(sheet, "the number above");
  expect(lines).toEqual(["2 41", "3 41"]);
  expect(faults).toEqual(["3 number carried down 41 row 2", "2 merged cells B2:B3"]);
});

test("the answer is kept with the matching, and nobody is asked where every row has its number", async () => {
  const sheet = await csv("41,1960-02-03,2025-05-01,2025-05-09", "42,,2025-06-01,");
  expect(matchingQuestions(answered(sheet), sheet)).toEqual([]);
  const kept = readMatching(JSON.stringify(answered(sheet, "the number above")));
  expect(kept?.columns[0]?.withoutNumber).toBe("the number above");
});
