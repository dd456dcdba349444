import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { CivilDate } from "../../src/core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../../src/policy/index.ts";
import {
  FIELD_NAMES,
  fileOfBytes,
  openSheet,
  previewFaults,
  type Matching,
  type RowFault,
} from "../../src/spreadsheet/index.ts";
import { slipYear, type SlipSheet } from "./slip-year.ts";

// Slips of the hand, put into finished cells of a year that was lived first; test/specification/slip-year.ts says how.
const PAGE = "docs/explanation/spreadsheet-slips.md";
const SHEETS = 40;
const today = "2026-01-15" as CivilDate;
const limits = sheetLimitsFrom(defaultPolicyTable);
const UNITS: Readonly<Record<string, "Fr" | "mm">> = { sizeFr: "Fr", veinDiameterMm: "mm" };

async function faultsOf(made: SlipSheet, bytes: Uint8Array): Promise<readonly RowFault[]> {
  const sheet = await openSheet(fileOfBytes(`${made.name}.csv`, bytes));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  const matching: Matching = {
    format: "veinwright-matching-1",
    confirmedBy: "invented person",
    columns: sheet.headers.map((header) => {
      const field = FIELD_NAMES.find((name) => name === made.fieldOfHeader.get(header)) ?? "left out";
      const unit = UNITS[field];
      return { header, field, order: made.dayFirst ? "day first" : "month first", ...(unit ? { unit } : {}) };
    }),
  };
  const faults: RowFault[] = [];
  const preview = await previewFaults(sheet, { matching, limits, today }, { onFaults: (some) => faults.push(...some) });
  expect(preview.kind).toBe("preview");
  return faults;
}

const LEAST_SHARE: readonly (readonly [RegExp, number])[] = [
  [/number with a check digit/, 1],
  [/number of a person seen twice/, 0.95],
  [/birth swapped, of a person seen twice/, 0.9],
  [/placing swapped, table in time order/, 0.9],
  [/ratio written|point of the vein/, 1],
];

const place = ({ row, column, code }: RowFault): string => `${row}|${column}|${code}`;

test("forty invented wards: slips brought up of slips made, and rows asked about without one", async () => {
  const found = new Map<string, { found: number; named: number; made: number }>();
  const alarms = new Map<string, number>();
  let rows = 0;
  let asked = 0;
  for (let number = 0; number < SHEETS; number += 1) {
    const made = slipYear(number);
    rows += made.rows;
    const quiet = await faultsOf(made, made.faultless);
    const before = new Set(quiet.map(place));
    for (const { code } of quiet) alarms.set(code, (alarms.get(code) ?? 0) + 1);
    asked += new Set(quiet.map(({ row }) => row)).size;
    const brought = (await faultsOf(made, made.slipped)).filter((fault) => !before.has(place(fault)));
    for (const slip of made.slips) {
      const tally = found.get(slip.kind) ?? { found: 0, named: 0, made: 0 };
      const own = brought.filter(({ row }) => slip.rows.includes(row));
      found.set(slip.kind, {
        found: tally.found + (own.length > 0 ? 1 : 0),
        named: tally.named + (own.some(({ column }) => slip.columns.includes(column)) ? 1 : 0),
        made: tally.made + 1,
      });
    }
  }
  const table = (head: readonly string[], body: readonly (readonly (string | number)[])[]) =>
    [head, head.map(() => "---"), ...body].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
  const page = `# Slips of the hand in spreadsheets

${SHEETS} invented wards (${rows} rows). Each year is lived first: calls on working days, people who come back, rows typed late, twins, numbers given in a run. Then single cells are mistyped. A slip is found when its row, or another row of that person, is asked about and would not be without the slip. Written by test/specification/slip-check.test.ts with fixed seeds; a real ward slips in other ways too.

${table(
  ["slip", "row asked about", "its own cell named", "of"],
  [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([kind, one]) => [kind, one.found, one.named, one.made]),
)}

A number with one wrong key, of a person seen once and without a check digit, leaves no trace in one file. So does a date that stays in its place when day and month change places, and a birth date typed wrong of a person seen once.

Rows of the sheets without any slip that are asked about: ${asked} of ${rows}. Near numbers are mostly twins in wards that write no initials; a line really typed weeks late may look swapped.

${table(
  ["asked about without a slip", "times"],
  [...alarms].sort(([a], [b]) => (a < b ? -1 : 1)),
)}
`;
  // levels that may not fall, whatever the page says
  for (const [kind, { found: seen, made }] of found)
    for (const [pattern, share] of LEAST_SHARE)
      if (pattern.test(kind)) expect(seen / made, kind).toBeGreaterThanOrEqual(share);
  expect(asked / rows).toBeLessThan(0.01);
  if (process.env["VEINWRIGHT_WRITE_PAGES"]) writeFileSync(PAGE, page);
  console.log(page);
  expect(readFileSync(PAGE, "utf8").replaceAll(/ +\|/g, " |").replaceAll(/-{3,}/g, "---")).toBe(page);
});
