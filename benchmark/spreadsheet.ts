// A million rows of CSV through the whole preview: time, and the highest resident memory seen on the way.
// Run alone: node --expose-gc dist/benchmark/spreadsheet.js, or through `npm run benchmark`.
import { civilDateFromDayNumber, type CivilDate } from "../src/core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../src/policy/index.ts";
import { openSheet, previewFaults, suggestMatching, type SheetFile } from "../src/spreadsheet/index.ts";

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

export async function benchmarkSpreadsheet(): Promise<
  readonly { readonly name: string; readonly median: number; readonly unit: string }[]
> {
  const before = process.memoryUsage().rss;
  let peak = before;
  const start = performance.now();
  const sheet = await openSheet(file);
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  const { matching } = suggestMatching(sheet);
  const reading = { matching, limits: sheetLimitsFrom(defaultPolicyTable), today: "2026-01-15" as CivilDate };
  const preview = await previewFaults(sheet, reading, {
    onProgress: () => {
      peak = Math.max(peak, process.memoryUsage().rss);
    },
  });
  const seconds = (performance.now() - start) / 1000;
  peak = Math.max(peak, process.memoryUsage().rss);
  if (preview.kind !== "preview" || preview.rowsRead !== ROWS) throw new Error(JSON.stringify(preview).slice(0, 300));
  return [
    { name: "preview of 1,000,000 rows of CSV", median: seconds, unit: "s" },
    { name: "the same, highest resident memory", median: peak / 1e6, unit: "MB" },
  ];
}
