import { expect, test } from "vitest";
import { generatedYear } from "../../../reference/generated-year.ts";
import { readLineTable } from "../../contract/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import type { AuditTable } from "../line/index.ts";
import { columnsOf, packedOfSent, sentLines } from "./sent-lines.ts";
import { lineCount, lineOfKey, tableOf } from "./packed-table.ts";
import { packRows } from "./pack-rows.ts";

function tableRead(): AuditTable {
  const reading = readLineTable(generatedYear(3, 400), { precision: "date", date: "2027-01-01" as CivilDate });
  if (reading.kind !== "table") throw new Error(JSON.stringify(reading.faults.slice(0, 3)));
  return reading.table;
}

test("lines that were sent to another thread and handed over are the very lines", () => {
  const table = tableRead();
  const odd = {
    ...table,
    lines: [...table.lines, { ...(table.lines[0] as (typeof table.lines)[0]), key: "é😀\n,", patient: "" }],
  };
  const sent = sentLines(packRows(odd));
  const columns = columnsOf(sent);
  expect(columns.length).toBeGreaterThan(40);
  const arrived = structuredClone(sent, { transfer: [...columns] as ArrayBuffer[] });
  // handed over, not copied: the sender has nothing left
  expect(sent.patient.length).toBe(0);
  const again = tableOf(packedOfSent(arrived));
  expect([lineCount(again), lineCount(odd)]).toEqual([odd.lines.length, odd.lines.length]);
  expect(lineOfKey(again, "é😀\n,")).toEqual(odd.lines.at(-1));
  expect(lineOfKey(again, "no such key")).toBeUndefined();
  expect(again.lines).toEqual(odd.lines);
  expect(again.referrals).toEqual(odd.referrals);
});

test("how far the reading of a table is grows to nearly one", () => {
  const shares: number[] = [];
  readLineTable(generatedYear(3, 5_000), { precision: "date", date: "2027-01-01" as CivilDate }, (share) =>
    shares.push(share),
  );
  expect(shares.length).toBeGreaterThan(2);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect([shares[0], (shares.at(-1) ?? 0) < 1]).toEqual([0, true]);
});
