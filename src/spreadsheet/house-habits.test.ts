import { expect, test } from "vitest";
import type { LineRow } from "../audit/index.ts";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import {
  fileOfBytes,
  lastDayOf,
  lineRowOf,
  openSheet,
  readRows,
  saltedKeys,
  suggestMatching,
  type RowFault,
  type SheetLine,
} from "./index.ts";

// habits of spreadsheets as services keep them: common practice, no source
const today = "2026-01-15" as CivilDate;
const keyOf = saltedKeys(new Uint8Array(16));

async function read(
  text: string,
): Promise<{ readonly rows: readonly LineRow[]; readonly faults: readonly RowFault[]; readonly fields: string[] }> {
  const sheet = await openSheet(fileOfBytes("year.csv", new Uint8Array(Buffer.from(text))));
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  const { matching } = suggestMatching(sheet);
  const lines: SheetLine[] = [];
  const faults: RowFault[] = [];
  for await (const part of readRows(sheet, { matching, limits: sheetLimitsFrom(defaultPolicyTable), today })) {
    if (part.kind === "refused") throw new Error(part.refusal.code);
    faults.push(...part.faults);
    if (part.kind === "rows") lines.push(...part.lines);
  }
  const last = lines.length > 0 ? lastDayOf(lines) : today;
  return {
    rows: lines.map((line) => lineRowOf(line, keyOf, last)),
    faults,
    fields: matching.columns.map(({ field }) => field),
  };
}

const HEAD = "MRN,Date placed,Date out,Why out,Arm,Lumens,Blocked date";

test("a line still in is in place up to the last day the sheet tells of, and one handed over is handed on", async () => {
  const { rows, faults } = await read(
    `${HEAD}\n1,2025-05-01,still in,,L,single,\n2,2025-05-02,2025-06-20,transferred out,R,double,`,
  );
  expect(rows[0]?.end).toEqual({ kind: "in place", lastKnown: { precision: "date", date: "2025-06-20" } });
  expect(rows[1]?.end).toEqual({ kind: "handed on", at: { precision: "date", date: "2025-06-20" } });
  expect(rows.map(({ lumens }) => lumens)).toEqual([1, 2]);
  expect(faults).toEqual([]);
});

test("a line without a removal was in at its own last event: an event never stands on days that nobody counted", async () => {
  const { rows } = await read(`${HEAD}\n1,2025-05-01,,,L,1,2025-05-20`);
  expect(rows[0]?.end).toEqual({ kind: "unknown", lastKnown: { precision: "date", date: "2025-05-20" } });
});

test("a reason that is itself the sighting is the event, as in the record; a dated one is not counted twice", async () => {
  const { rows } = await read(
    `${HEAD}\n1,2025-05-01,2025-05-09,fell out,L,1,\n2,2025-05-01,2025-05-09,blocked,L,1,2025-05-07\n3,2025-05-01,2025-05-09,blocked,L,1,`,
  );
  const told = rows.map(({ events }) => events.map(({ kind, at }) => [kind, at.precision === "date" ? at.date : ""]));
  expect(told).toEqual([
    [["dislodgement", "2025-05-09"]],
    [["occlusion", "2025-05-07"]],
    [["occlusion", "2025-05-09"]],
  ]);
});

test("two days in one cell are two events, and a part that is no date leaves the cell out", async () => {
  const { rows, faults } = await read(
    `${HEAD}\n1,2025-05-01,2025-06-09,EOT,L,1,2025-05-07 & 2025-05-20\n2,2025-05-01,2025-06-09,EOT,L,1,2025-05-07 & often`,
  );
  expect(rows.map(({ events }) => events.length)).toEqual([2, 0]);
  expect(rows.map(({ undated }) => undated)).toEqual([undefined, ["occlusion"]]);
  expect(faults.map(({ code }) => code)).toEqual(["event without a day"]);
});

test("a header copied into the sheet is one fault, not one for each cell", async () => {
  const { rows, faults } = await read(`${HEAD}\n1,2025-05-01,2025-06-09,EOT,L,1,\n${HEAD}\n2,2025-05-02,,,R,1,`);
  expect(rows.length).toBe(2);
  expect(faults.map(({ code, row }) => [code, row])).toEqual([["header again", 3]]);
});

test("a thing and its unit name a width: a column of French is a size and not the name of a catheter", async () => {
  const { fields } = await read(
    "Hosp. No.,D.O.B.,Date in,Catheter Fr,Vessel,Vessel mm\n1,1960-01-01,2025-05-01,4,Bas.,4.1",
  );
  expect(fields).toEqual(["patient", "birthDate", "placedOn", "sizeFr", "vein", "veinDiameterMm"]);
});

test("a blockage of no day stays one of no day, 'no' is none, and a removal because of it is its day", async () => {
  const { rows, faults } = await read(
    `${HEAD}\n1,2025-05-01,2025-05-09,EOT,L,1,yes\n2,2025-05-01,2025-05-09,EOT,L,1,no\n3,2025-05-01,2025-05-09,blocked,L,1,yes\n4,2025-05-01,2025-05-09,EOT,R,1,2027-05-02`,
  );
  expect(rows.map(({ undated }) => undated)).toEqual([["occlusion"], undefined, undefined, undefined]);
  expect(rows.map(({ events }) => events.length)).toEqual([0, 0, 1, 0]);
  expect(faults.map(({ row, code }) => [row, code])).toEqual([
    [2, "event without a day"],
    [4, "event without a day"],
    [5, "date in the future"],
  ]);
});
