import { describe, expect, test } from "vitest";
import { partsOfBook, rowOfTexts, zipOfParts } from "../../test/zip-of-parts.ts";
import type { CivilDate } from "../core/calendar/index.ts";
import { sayEncoding, sayRefusal } from "../language/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import { inRowOrder } from "./line/in-row-order.ts";
import {
  everyFault,
  fileOfBytes,
  openSheet,
  previewFaults,
  readRows,
  standingOf,
  suggestMatching,
  type RowFault,
  type Sheet,
} from "./index.ts";

const limits = sheetLimitsFrom(defaultPolicyTable);
const today = "2026-01-15" as CivilDate;
async function sheetOf(text: string | Uint8Array): Promise<Sheet> {
  const bytes = typeof text === "string" ? new TextEncoder().encode(text) : text;
  const sheet = await openSheet(fileOfBytes("lines", bytes, 700));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  return sheet;
}

describe("the list of every fault", () => {
  const ROWS = 3000;
  // three faults in each row, and every other row stands twice
  const text = `MRN,Date placed,Age,Attempts,Vein\n${Array.from({ length: ROWS }, (_, at) => `${41 + Math.floor(at / 2) * 2},2025-05-01,240,many,knee\n`).join("")}`;

  test("a preview counts each kind exactly, keeps the first of each, and a second reading gives all by their rows", async () => {
    const sheet = await sheetOf(text);
    const reading = { matching: suggestMatching(sheet).matching, limits, today };
    const preview = await previewFaults(sheet, reading);
    if (preview.kind !== "preview") throw new Error(preview.kind);
    expect(Object.fromEntries(preview.counts)).toEqual({
      "age impossible": ROWS,
      "not a number": ROWS,
      "word not known": ROWS,
      "same line twice": ROWS / 2,
    });
    expect(preview.faults.length).toBe(400);
    const all: RowFault[] = [];
    for await (const part of everyFault(sheet, preview, reading)) {
      if (part.kind === "refused") throw new Error(part.refusal.code);
      all.push(...part.faults);
    }
    // the slow and obvious way: everything in one list
    const obvious: RowFault[] = [];
    for await (const part of readRows(sheet, reading)) if (part.kind !== "refused") obvious.push(...part.faults);
    expect(all).toEqual(obvious.toSorted((a, b) => a.row - b.row));
    expect(preview.faults).toEqual(
      [...preview.counts.keys()]
        .flatMap((code) => all.filter((fault) => fault.code === code).slice(0, 100))
        .toSorted((a, b) => a.row - b.row || all.indexOf(a) - all.indexOf(b)),
    );
    expect(preview).toMatchObject({ rowsRead: ROWS, rowsLeftOut: ROWS / 2, newLines: ROWS / 2 });
  });

  test("a file that changed after its preview gives no list", async () => {
    const sheet = await sheetOf(text);
    const reading = { matching: suggestMatching(sheet).matching, limits, today };
    const preview = await previewFaults(sheet, reading);
    if (preview.kind !== "preview") throw new Error(preview.kind);
    const kinds: string[] = [];
    for await (const part of everyFault(await sheetOf(text.replace("many", "several")), preview, reading))
      kinds.push(part.kind === "refused" ? part.refusal.code : part.kind);
    expect(kinds.at(-1)).toBe("changed-since");
  });

  test("lists in order become one in order, and no item is lost", () => {
    expect([...inRowOrder([[1, 4, 4, 9], [], [2, 3, 10], [4]], (one) => one)]).toEqual([1, 2, 3, 4, 4, 4, 9, 10]);
  });

  // docs/reference/quality.md, C2 and E5: counting holds them; a row left out is in no figure
  test("each is stop, hold or warn, by counting's own rule where it has one", () => {
    expect(standingOf("size against lumens")).toMatchObject({ severity: "hold", rule: "C2" });
    expect(standingOf("event only in the reason")).toMatchObject({ severity: "hold", rule: "E5" });
    expect(standingOf("removed before placed")).toMatchObject({ severity: "stop", rule: "T1" });
    expect(standingOf("near number")).toMatchObject({ severity: "warn", rule: undefined });
    expect(standingOf("check digit").source).toContain("NHS Data Dictionary");
  });
});

describe("a table of a header alone", () => {
  const said = async (bytes: Uint8Array) => {
    const opened = await openSheet(fileOfBytes("lines", bytes));
    return opened.kind === "refused" ? sayRefusal(opened.refusal) : opened.kind;
  };
  test("is told as that, as CSV and as a workbook; an empty workbook holds nothing", async () => {
    const told =
      "The table has a header and no rows below it. Add the lines, or choose another sheet. Found: MRN, Date placed.";
    expect(await said(new TextEncoder().encode("MRN,Date placed\n"))).toBe(told);
    const book = (rows: string) => zipOfParts(partsOfBook({ sheets: { Lines: `<sheetData>${rows}</sheetData>` } }));
    expect(await said(book(rowOfTexts(1, ["MRN", "Date placed"])))).toBe(told);
    expect(await said(book(""))).toBe("No sheet of the workbook holds anything. Choose another file.");
  });

  test("what the letters were read as is said, and what to look at", async () => {
    expect(sayEncoding(await sheetOf("MRN,Date placed\n41,2025-05-01\n"))).toBe(
      "Read as UTF-8. The first rows hold plain letters only: nothing to check.",
    );
    expect(sayEncoding(await sheetOf("MRN,Date placed,Ward\n41,2025-05-01,Chêne\n"))).toBe(
      "Read as UTF-8. Check that these words look right: Chêne.",
    );
  });
});
