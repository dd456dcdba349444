import { headerRowOf, namesOfColumns } from "./header-row.ts";
import { csvRows, detectDelimiter, parseSample, type Delimiter } from "./csv-rows.ts";
import type { DateSystem } from "./date-serial.ts";
import { OTHER_ENCODING } from "./decode-lines.ts";
import { decoderOf, detectEncoding, type Encoding } from "./encoding.ts";
import { isByLine, lineDecoderOf } from "./line-decoder.ts";
import { bytesAre } from "./utf8-bytes.ts";
import { FILE_LIMITS } from "./limits.ts";
import { Refused, type Refusal } from "./refusal.ts";
import { isCompoundFile, kindOfCompoundFile } from "./compound-file.ts";
import { headOf, type CancelSign, type RowBatch, type SheetFile, type SheetRow } from "./sheet-file.ts";
import { openWorkbook } from "../workbook/open-workbook.ts";

const HEAD_BYTES = 262_144;
const SAMPLE_ROWS = 400;

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
  /** The program hides the sheet, or these columns of it, counted from nought; both are read all the same. */
  readonly sheetHidden?: true;
  readonly hiddenColumns?: readonly number[];
  /** Known for a workbook; a CSV does not say. */
  readonly dateSystem?: DateSystem;
  readonly headerRow: number;
  /** One name for each column; a second "Date" is "Date #2", an empty one "column 7". */
  readonly headers: readonly string[];
  readonly sample: readonly SheetRow[];
  /** Every row below the header, in batches; refuses by throwing inside this room only. */
  readonly rows: (cancel?: CancelSign) => AsyncGenerator<RowBatch>;
}

/** A filled sheet of several; how many rows it has is its own word, where it gives one. */
export interface SheetChoice {
  readonly name: string;
  readonly hidden: boolean;
  readonly rows: number | undefined;
}

export type Opened =
  | Sheet
  | { readonly kind: "choose sheet"; readonly sheets: readonly SheetChoice[] }
  | { readonly kind: "refused"; readonly refusal: Refusal };

export interface OpenChoice {
  readonly sheetName?: string;
  readonly encoding?: Encoding;
  readonly delimiter?: Delimiter;
  readonly headerRow?: number;
}

/** What the page does while a large file is opened. */
export interface OpenHooks {
  readonly cancel?: CancelSign;
  readonly onProgress?: (share: number) => void;
}

const looksLikeZip = ([a, b, c]: Uint8Array): boolean => a === 0x50 && b === 0x4b && (c === 3 || c === 5);
/** A sheet of the oldest programs: a record that begins a stream, before there were files of several streams. */
const looksLikeOldSheet = ([a, b]: Uint8Array): boolean => a === 9 && (b === 0 || b === 2 || b === 4 || b === 8);
const MARKUP = /^\uFEFF?\s*<(\?xml|!doctype|html|table|meta|head|style)\b/i;

/** Opens a file of either kind by its first bytes, never by its name, and reads no more of it than is needed. */
export async function openSheet(file: SheetFile, choice: OpenChoice = {}, hooks: OpenHooks = {}): Promise<Opened> {
  try {
    const head = await headOf(file, HEAD_BYTES);
    if (head.length === 0) throw new Refused("empty-file");
    if (looksLikeZip(head)) return await openBook(file, choice, hooks);
    if (isCompoundFile(head)) throw new Refused(await kindOfCompoundFile(file));
    if (looksLikeOldSheet(head)) throw new Refused("old-workbook");
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
  // programs save a web page or XML under the name of a sheet
  if (MARKUP.test(text)) throw new Refused("markup-file", text.trim().slice(0, 40));
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

async function openBook(file: SheetFile, choice: OpenChoice, hooks: OpenHooks): Promise<Opened> {
  const { dateSystem, sheets, headerAlone } = await openWorkbook(file, SAMPLE_ROWS, {
    ...hooks,
    ...(choice.sheetName === undefined ? {} : { sheetName: choice.sheetName }),
  });
  if (sheets.length === 0) {
    if (headerAlone !== undefined) throw new Refused("no-rows", headerAlone);
    throw choice.sheetName === undefined ? new Refused("empty-sheets") : new Refused("no-such-sheet", choice.sheetName);
  }
  if (choice.sheetName === undefined && sheets.length > 1)
    return {
      kind: "choose sheet",
      sheets: sheets.map(({ name, hidden, said }) => ({ name, hidden, rows: said.rows })),
    };
  const chosen = sheets[0] as (typeof sheets)[number];
  const { hiddenColumns } = chosen.said;
  return {
    ...sheetOf(file, "XLSX", chosen.sample, chosen.rows, choice.headerRow),
    sheetName: chosen.name,
    ...(chosen.hidden ? { sheetHidden: true as const } : {}),
    ...(hiddenColumns.length > 0 ? { hiddenColumns } : {}),
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
  if (below.length === 0) throw new Refused("no-rows", header.cells.join(", "));
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
        const merged = batch.merged?.filter(({ row }) => row > headerRow);
        yield { ...batch, rows: kept, ...(merged && merged.length > 0 ? { merged } : {}) };
      }
    },
  };
}
