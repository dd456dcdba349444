// A million rows of an invented service, as CSV and as a workbook, through the whole preview and the list of every fault:
// time, processor time, and the highest resident memory seen on the way.
// Run alone: node --expose-gc dist/benchmark/spreadsheet.js, or through `npm run benchmark`.
import { closeSync, createReadStream, mkdtempSync, openSync, readSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { CivilDate } from "../src/core/calendar/index.ts";
import { sayRowFault } from "../src/language/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../src/policy/index.ts";
import {
  everyFault,
  faultLines,
  openSheet,
  previewFaults,
  suggestMatching,
  type SheetFile,
} from "../src/spreadsheet/index.ts";
import { largeCsv, writeLargeWorkbook, type LargeSheet } from "./large-workbook.ts";
import type { BenchmarkRow } from "./plan.ts";

const ROWS = 1_000_000;

/** The file is made as it is read, so that its own bytes are not counted as the reader's memory. */
const csvOf = (sheet: LargeSheet): SheetFile => ({
  range: () => Promise.reject(new Error("a CSV is read from its start")),
  name: "million.csv",
  sizeBytes: 160_000_000,
  open: async function* open() {
    const encoder = new TextEncoder();
    for (const piece of largeCsv(sheet)) yield encoder.encode(piece);
  },
});

export async function benchmarkSpreadsheet(): Promise<readonly BenchmarkRow[]> {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-workbook-"));
  const workbookOf = async (name: string, sheet: LargeSheet): Promise<SheetFile> => {
    await writeLargeWorkbook(join(folder, name), sheet);
    return onDisk(join(folder, name));
  };
  try {
    return [
      ...(await previewOf("a workbook of 24 columns", await workbookOf("plain.xlsx", { rows: ROWS }))),
      ...(await previewOf(
        "the same, a text of its own in each",
        await workbookOf("distinct.xlsx", { rows: ROWS, distinct: true }),
      )),
      ...(await previewOf("CSV", csvOf({ rows: ROWS }))),
      ...(await previewOf("CSV, five faults in each", csvOf({ rows: ROWS, faulty: true }))),
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

/** Runs a task and tells its time and the highest memory that `see` saw. */
async function measured(name: string, task: (see: () => void) => Promise<void>): Promise<readonly BenchmarkRow[]> {
  globalThis.gc?.();
  let peak = process.memoryUsage().rss;
  const see = () => {
    peak = Math.max(peak, process.memoryUsage().rss);
  };
  const start = performance.now();
  const before = process.cpuUsage();
  await task(see);
  see();
  const { user, system } = process.cpuUsage(before);
  return [
    { name, median: (performance.now() - start) / 1000, unit: "s" },
    { name: "the same, processor time", median: (user + system) / 1e6, unit: "s" },
    { name: "the same, highest resident memory", median: peak / 1e6, unit: "MB" },
  ];
}

async function previewOf(name: string, sheetFile: SheetFile): Promise<readonly BenchmarkRow[]> {
  const answers: BenchmarkRow[] = [];
  let list: ((see: () => void) => Promise<void>) | undefined;
  answers.push(
    ...(await measured(`preview of 1,000,000 rows of ${name}`, async (see) => {
      const sheet = await openSheet(sheetFile, {}, { onProgress: see });
      if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
      const { matching } = suggestMatching(sheet);
      const reading = { matching, limits: sheetLimitsFrom(defaultPolicyTable), today: "2026-01-15" as CivilDate };
      const preview = await previewFaults(sheet, reading, { onProgress: see });
      if (preview.kind !== "preview" || preview.rowsRead !== ROWS)
        throw new Error(JSON.stringify(preview).slice(0, 300));
      list = async (seeList) => {
        let told = 0;
        for await (const part of everyFault(sheet, preview, reading)) {
          if (part.kind === "refused") throw new Error(JSON.stringify(part));
          told += part.faults.length;
          faultLines(part.faults, sayRowFault);
          seeList();
        }
        if (told !== [...preview.counts.values()].reduce((sum, count) => sum + count, 0))
          throw new Error(`${told} faults listed`);
      };
    })),
  );
  if (list) answers.push(...(await measured("its list of every fault", list)));
  return answers;
}
