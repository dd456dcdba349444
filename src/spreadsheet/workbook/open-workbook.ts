import type { DateSystem } from "../file/date-serial.ts";
import { FILE_LIMITS } from "../file/limits.ts";
import { Refused } from "../file/refusal.ts";
import type { CancelSign, RowBatch, SheetFile, SheetRow } from "../file/sheet-file.ts";
import type { CellGround } from "./cell-text.ts";
import { readNumberStyles } from "./number-style.ts";
import { packageParts, type SheetPart } from "./package-parts.ts";
import { readSharedTexts } from "./shared-texts.ts";
import { SheetCells, type SheetSaid } from "./sheet-cells.ts";
import { xmlPieces } from "./xml-pieces.ts";

/** One sheet of a workbook that holds more than one filled row, and how its rows are read. */
export interface WorkbookSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** Its first rows, of one sheet only: of several a person chooses first. */
  readonly sample: readonly SheetRow[];
  /** What it says of itself; merged cells are not known yet. */
  readonly said: SheetSaid;
  readonly rows: (cancel?: CancelSign) => AsyncGenerator<RowBatch>;
}

export interface Workbook {
  readonly dateSystem: DateSystem;
  readonly sheets: readonly WorkbookSheet[];
  /** The one row of a sheet that has no other. */
  readonly headerAlone: string | undefined;
}

/** A head and a row below it. */
const FILLED_ROWS = 2;
const NEVER: CancelSign = { aborted: false };

/**
 * Opens a workbook by random access: its list of parts, its shared texts and styles are read and the first rows of each
 * sheet, or of the one that is named; the rest of a sheet is unpacked and read as its rows are asked for. Formulas are not worked out: the value last
 * shown is taken and its place is told.
 */
export async function openWorkbook(
  file: SheetFile,
  sampleRows: number,
  {
    sheetName,
    cancel = NEVER,
    onProgress = () => undefined,
  }: {
    readonly sheetName?: string;
    readonly cancel?: CancelSign;
    readonly onProgress?: (share: number) => void;
  },
): Promise<Workbook> {
  if (file.sizeBytes > FILE_LIMITS.workbookBytes)
    throw new Refused("workbook-too-large", `${Math.round(file.sizeBytes / 1_000_000)} MB`);
  const { dateSystem, texts, styles, sheets } = await packageParts(file, cancel);
  const ground: CellGround = {
    dateSystem,
    texts: texts && (await readSharedTexts(file, texts, cancel, onProgress)),
    styles: styles ? await readNumberStyles(file, styles, cancel) : [],
  };
  const filled: WorkbookSheet[] = [];
  let headerAlone: string | undefined;
  for (const sheet of sheets) {
    if (sheetName !== undefined && sheet.name !== sheetName) continue;
    const opened = await openOne(file, sheet, ground, filled.length === 0 ? sampleRows : FILLED_ROWS, cancel);
    if (opened.sample.length < FILLED_ROWS) headerAlone ??= opened.sample[0]?.cells.join(", ");
    else filled.push(filled.length === 0 ? opened : { ...opened, sample: [] });
  }
  return { dateSystem, sheets: filled, headerAlone };
}

async function openOne(
  file: SheetFile,
  { name, hidden, part }: SheetPart,
  ground: CellGround,
  sampleRows: number,
  cancel: CancelSign,
): Promise<WorkbookSheet> {
  if (part.declaredBytes > FILE_LIMITS.sheetBytes)
    throw new Refused("workbook-too-large", `${part.name}: ${Math.round(part.declaredBytes / 1_000_000)} MB unpacked`);
  const reader = new SheetCells(ground);
  for await (const _ of xmlPieces(file, part, (xml) => reader.take(xml), cancel))
    if (reader.rows.length >= sampleRows || charactersOf(reader.rows) > FILE_LIMITS.sampleCharacters) break;
  return {
    name,
    hidden,
    sample: reader.rows.slice(0, sampleRows),
    said: reader.said(),
    rows: async function* rows(stop = NEVER) {
      const cells = new SheetCells(ground);
      for await (const { packedRead, last } of xmlPieces(file, part, (xml) => cells.take(xml), stop)) {
        const { rows: found } = cells;
        cells.rows = [];
        const { merged } = cells.said();
        yield {
          rows: found,
          bytesRead: packedRead,
          bytesInAll: part.packedBytes,
          ...(last && merged.length > 0 ? { merged } : {}),
        };
      }
    },
  };
}

const charactersOf = (rows: readonly SheetRow[]): number =>
  rows.reduce((sum, { cells }) => cells.reduce((own, cell) => own + cell.length, sum), 0);
