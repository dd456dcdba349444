// A million rows of CSV and a million rows of twenty columns of a workbook through the whole preview: time, processor
// time, and the highest resident memory seen on the way.
// Run alone: node --expose-gc dist/benchmark/spreadsheet.js, or through `npm run benchmark`.
import { closeSync, createReadStream, mkdtempSync, openSync, readSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { civilDateFromDayNumber, type CivilDate } from "../src/core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../src/policy/index.ts";
import { openSheet, previewFaults, suggestMatching, type SheetFile } from "../src/spreadsheet/index.ts";
import { writeLargeWorkbook } from "./large-workbook.ts";
import type { BenchmarkRow } from "./plan.ts";

const ROWS = 1_000_000;
const HEAD = "MRN,Date placed,Date removed,Arm,Vein,Fr,Lumens,Vein diameter (mm),Attempts,Ward\n";
const rowOf = (at: number): string => {
  const placed = 18_000 + ((at * 7) % 1800);
  const [from, to] = [civilDateFromDayNumber(placed), civilDateFromDayNumber(placed + 1 + (at % 40))];
  const [arm, vein] = at % 2 === 0 ? ["L", "basilic"] : ["R", "brachial"];
  return `${400_000 + at},${from},${to},${arm},${vein},${3 + (at % 3)},1,${(2.5 + (at % 30) / 10).toFixed(1)},1,Ward ${at % 20}\n`;
};

/** The file is made as it is read, so that its own bytes are not counted as the reader's memory. */
const file: SheetFile = {
  range: () => Promise.reject(new Error("a CSV is read from its start")),
  name: "million.csv",
  sizeBytes: 80_000_000,
  open: async function* open() {
    const encoder = new TextEncoder();
    yield encoder.encode(HEAD);
    for (let at = 0; at < ROWS; at += 1000)
      yield encoder.encode(Array.from({ length: 1000 }, (_, next) => rowOf(at + next)).join(""));
  },
};

export async function benchmarkSpreadsheet(): Promise<readonly BenchmarkRow[]> {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-workbook-"));
  try {
    const plain = join(folder, "plain.xlsx");
    const distinct = join(folder, "distinct.xlsx");
    await writeLargeWorkbook(plain, ROWS, false);
    await writeLargeWorkbook(distinct, ROWS, true);
    return [
      ...(await previewOf("1,000,000 rows of a workbook of 20 columns", onDisk(plain))),
      ...(await previewOf("the same, a text of its own in each row", onDisk(distinct))),
      ...(await previewOf("1,000,000 rows of CSV", file)),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A file read by its places, as the command line reads one. */
function onDisk(name: string): SheetFile {
  return {
    name,
    sizeBytes: statSync(name).size,
    open: () => createReadStream(name),
    range: (from, to) => {
      const bytes = new Uint8Array(to - from);
      const handle = openSync(name, "r");
      const read = readSync(handle, bytes, 0, bytes.length, from);
      closeSync(handle);
      return Promise.resolve(bytes.subarray(0, read));
    },
  };
}

async function previewOf(name: string, sheetFile: SheetFile): Promise<readonly BenchmarkRow[]> {
  globalThis.gc?.();
  let peak = process.memoryUsage().rss;
  const see = () => {
    peak = Math.max(peak, process.memoryUsage().rss);
  };
  const start = performance.now();
  const before = process.cpuUsage();
  const sheet = await openSheet(sheetFile, {}, { onProgress: see });
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  const { matching } = suggestMatching(sheet);
  const reading = { matching, limits: sheetLimitsFrom(defaultPolicyTable), today: "2026-01-15" as CivilDate };
  const preview = await previewFaults(sheet, reading, { onProgress: see });
  const seconds = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(before);
  see();
  if (preview.kind !== "preview" || preview.rowsRead !== ROWS) throw new Error(JSON.stringify(preview).slice(0, 300));
  return [
    { name: `preview of ${name}`, median: seconds, unit: "s" },
    { name: "the same, processor time", median: (user + system) / 1e6, unit: "s" },
    { name: "the same, highest resident memory", median: peak / 1e6, unit: "MB" },
  ];
}
