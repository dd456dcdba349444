import { headerRowOf, namesOfColumns } from "./header-row.ts";
import { csvRows, detectDelimiter, parseSample, type Delimiter } from "./csv-rows.ts";
import type { DateSystem } from "./date-serial.ts";
import { OTHER_ENCODING } from "./decode-lines.ts";
import { decoderOf, detectEncoding, type Encoding } from "./encoding.ts";
import { isByLine, lineDecoderOf } from "./line-decoder.ts";
import { bytesAre } from "./utf8-bytes.ts";
import { FILE_LIMITS } from "./limits.ts";
import { Refused, type Refusal } from "./refusal.ts";
import type { Workbook } from "./workbook.ts";
import { bytesOf, headOf, type CancelSign, type RowBatch, type SheetFile, type SheetRow } from "./sheet-file.ts";

const HEAD_BYTES = 262_144;
const SAMPLE_ROWS = 400;
const BATCH_ROWS = 2000;

/** A table that can be read, with what was found out about it and a sample for matching. */
export interface Sheet {
  readonly kind: "sheet";
  readonly fileName: string;
  readonly format: "CSV" | "XLSX";
  readonly encoding?: Encoding;
  /** Words with signs beyond plain letters, to be looked at by a person: a wrong encoding shows here. */
  readonly encodingSample: readonly string[];
  readonly delimiter?: Delimiter;
  readonly sheetName?: string;
  /** Known for a workbook; a CSV does not say. */
  readonly dateSystem?: DateSystem;
  readonly headerRow: number;
  /** One name for each column; a second "Date" is "Date #2", an empty one "column 7". */
  readonly headers: readonly string[];
  readonly sample: readonly SheetRow[];
  /** Every row below the header, in batches; refuses by throwing inside this room only. */
  readonly rows: (cancel?: CancelSign) => AsyncGenerator<RowBatch>;
}

export type Opened =
  | Sheet
  | { readonly kind: "choose sheet"; readonly sheets: readonly { readonly name: string; readonly rows: number }[] }
  | { readonly kind: "refused"; readonly refusal: Refusal };

export interface OpenChoice {
  readonly sheetName?: string;
  readonly encoding?: Encoding;
  readonly delimiter?: Delimiter;
  readonly headerRow?: number;
}

/** Whether the first bytes are a workbook's; the rest of it may still be something else. */
export const looksLikeWorkbook = ([a, b, c]: Uint8Array): boolean => a === 0x50 && b === 0x4b && (c === 3 || c === 5);

type WorkbookReader = (bytes: Uint8Array) => Promise<Workbook>;

/** Opens a file of either kind by its first bytes, never by its name, and reads no more of it than is needed. */
export const openSheet = (file: SheetFile, choice: OpenChoice = {}): Promise<Opened> =>
  // the reader of workbooks is large: whoever opens a CSV never loads it
  openWith(file, choice, async (bytes) => (await import("./workbook.ts")).readWorkbook(bytes));

/** Opens a CSV and refuses a workbook: what is built from this alone is built without the reader of workbooks. */
export const openCsvSheet = (file: SheetFile, choice: OpenChoice = {}): Promise<Opened> =>
  openWith(file, choice, () => Promise.reject(new Refused("not-a-table", "a workbook")));

async function openWith(file: SheetFile, choice: OpenChoice, readWorkbook: WorkbookReader): Promise<Opened> {
  try {
    const head = await headOf(file, HEAD_BYTES);
    if (head.length === 0) throw new Refused("empty-file");
    const [a, b, c, d] = head;
    if (looksLikeWorkbook(head)) return await openWorkbook(file, choice, readWorkbook);
    if (a === 0xd0 && b === 0xcf && c === 0x11 && d === 0xe0) throw new Refused("old-workbook");
    return openCsv(file, head, choice);
  } catch (fault) {
    if (fault instanceof Refused) return { kind: "refused", refusal: fault.refusal };
    throw fault;
  }
}

function openCsv(file: SheetFile, head: Uint8Array, choice: OpenChoice): Sheet {
  if (file.sizeBytes > FILE_LIMITS.csvBytes) throw new Refused("too-large", `${file.sizeBytes} bytes`);
  const byLine = choice.encoding === undefined;
  const encoding = choice.encoding ?? detectEncoding(head).encoding;
  // a head of plain letters only has decided nothing
  const decided = bytesAre(head, 0, head.length, true) !== "plain";
  const decoder = byLine ? lineDecoderOf(encoding, decided) : decoderOf(encoding);
  // a letter may be cut in two by the end of the head; only what is read by lines may be ended here
  const decoded = (decoder.decode(head) + (byLine && isByLine(encoding) ? decoder.end() : ""))
    .replace(/^\uFEFF/, "")
    .replaceAll(OTHER_ENCODING, "");
  const whole = head.length === file.sizeBytes;
  // in a file cut off here the last line may be half a line
  const text = whole && !decoded.endsWith("\n") ? `${decoded}\n` : decoded;
  // oxlint-disable-next-line no-control-regex -- control signs are exactly what tells a table from a program
  const control = /[\u0001-\u0008\u000E-\u001A\u001C-\u001F]/.exec(text);
  if (control) throw new Refused("not-a-table", `a control sign at ${control.index}`);
  const delimiter = choice.delimiter ?? detectDelimiter(text);
  if (!delimiter) throw new Refused("not-a-table", text.slice(0, 40));
  const sample = sampleOf(text, delimiter);
  // one row fills the whole head: a quote swallows what follows, or a cell is not a cell of a table
  if (!whole && sample.length < 3)
    throw new Refused(
      text.includes('"') ? "quote-never-closed" : "cell-too-large",
      `${text.length} characters`,
      sample.length + 1,
    );
  const rows = (cancel?: CancelSign) =>
    csvRows(file, { encoding: decoder.encoding, delimiter, byLine, decided }, cancel);
  const encodingSample = [...new Set(text.match(/[\p{L}\d]{0,20}[\u0080-\uFFFF]{1,20}[\p{L}\d]{0,20}/gu) ?? [])].slice(
    0,
    5,
  );
  return {
    ...sheetOf(file, "CSV", sample, rows, choice.headerRow),
    encoding: decoder.encoding,
    encodingSample,
    delimiter,
  };
}

function sampleOf(text: string, delimiter: Delimiter): readonly SheetRow[] {
  const rows: SheetRow[] = [];
  let row = 0;
  for (const cells of parseSample(text, delimiter)) {
    row += 1;
    if (cells.length > FILE_LIMITS.columns) throw new Refused("too-many-columns", cells.length, row);
    rows.push({ row, cells });
    if (rows.length === SAMPLE_ROWS) break;
  }
  return rows;
}

async function openWorkbook(file: SheetFile, choice: OpenChoice, readWorkbook: WorkbookReader): Promise<Opened> {
  const bytes = await bytesOf(file, FILE_LIMITS.workbookBytes);
  if (!bytes) throw new Refused("workbook-too-large", `${file.sizeBytes} bytes`);
  const { dateSystem, sheets } = await readWorkbook(bytes);
  const filled = sheets.filter(({ rows }) => rows.length > 1);
  if (filled.length === 0) throw new Refused("no-rows");
  if (choice.sheetName === undefined && filled.length > 1)
    return { kind: "choose sheet", sheets: filled.map(({ name, rows }) => ({ name, rows: rows.length })) };
  const chosen = filled.find(({ name }) => name === choice.sheetName || choice.sheetName === undefined);
  if (!chosen) throw new Refused("no-such-sheet", choice.sheetName ?? "");
  const rows = async function* rows(cancel: CancelSign = { aborted: false }): AsyncGenerator<RowBatch> {
    for (let at = 0; at < chosen.rows.length; at += BATCH_ROWS) {
      if (cancel.aborted) throw new Refused("cancelled", "", at);
      const share = Math.min(1, (at + BATCH_ROWS) / chosen.rows.length);
      const bytesRead = Math.round(share * bytes.length);
      yield { rows: chosen.rows.slice(at, at + BATCH_ROWS), bytesRead, bytesInAll: bytes.length };
    }
  };
  return {
    ...sheetOf(file, "XLSX", chosen.rows.slice(0, SAMPLE_ROWS), rows, choice.headerRow),
    sheetName: chosen.name,
    dateSystem,
    encodingSample: [],
  };
}

function sheetOf(
  file: SheetFile,
  format: Sheet["format"],
  sample: readonly SheetRow[],
  rows: (cancel?: CancelSign) => AsyncGenerator<RowBatch>,
  chosenHeader: number | undefined,
): Omit<Sheet, "encodingSample"> {
  const headerRow = chosenHeader ?? headerRowOf(sample);
  const header = sample.find(({ row }) => row === headerRow);
  if (!header) throw new Refused("no-rows");
  const below = sample.filter(({ row, cells }) => row > headerRow && cells.some((cell) => cell.trim() !== ""));
  if (below.length === 0) throw new Refused("no-rows");
  return {
    kind: "sheet",
    fileName: file.name,
    format,
    headerRow,
    headers: namesOfColumns(header.cells),
    sample: below,
    rows: async function* belowHeader(cancel) {
      for await (const batch of rows(cancel)) {
        const kept = batch.rows.filter(
          ({ row, cells }) => row > headerRow && cells.some((cell) => cell !== "" && cell.trim() !== ""),
        );
        yield { ...batch, rows: kept };
      }
    },
  };
}
