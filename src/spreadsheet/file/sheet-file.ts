/** A file as the page, the server and the command line can all give it: bytes that can be read again from the start. */
export interface SheetFile {
  readonly name: string;
  readonly sizeBytes: number;
  readonly open: () => AsyncIterable<Uint8Array>;
  /** The bytes from one place up to another, fewer where the file ends before: a workbook is read by its list at the end. */
  readonly range: (from: number, to: number) => Promise<Uint8Array>;
}

/** Anything that can say "stop"; an AbortSignal fits. */
export interface CancelSign {
  readonly aborted: boolean;
}

/** One row of text as it stands in the file. Cells are held by position, never by a name from the file. */
export interface SheetRow {
  /** Counted as a spreadsheet program counts, the first row being 1. */
  readonly row: number;
  readonly cells: readonly string[];
  /** Positions of cells that a formula filled: the value it last showed is kept, and nothing is worked out. */
  readonly formulaAt?: readonly number[];
  /** Positions of cells whose formula nobody worked out before the file was saved: what they show is not known. */
  readonly unworkedAt?: readonly number[];
  /** The program hides the row, by hand or by a filter. */
  readonly hidden?: true;
  /** Positions of cells with letters of another encoding than the file's. */
  readonly otherEncodingAt?: readonly number[];
  /** The quotes of the row do not pair up. */
  readonly badQuotes?: true;
}

export interface RowBatch {
  readonly rows: readonly SheetRow[];
  readonly bytesRead: number;
  readonly bytesInAll: number;
  /** Cells that stand for several, by the row of the first; with the last rows. */
  readonly merged?: readonly { readonly row: number; readonly found: string }[];
}

/** A file held in memory, such as one dropped on a page or made by a test. */
export function fileOfBytes(name: string, bytes: Uint8Array, pieceBytes = 65_536): SheetFile {
  return {
    name,
    sizeBytes: bytes.length,
    open: async function* open() {
      for (let at = 0; at < bytes.length; at += pieceBytes) yield bytes.subarray(at, at + pieceBytes);
    },
    range: (from, to) => Promise.resolve(bytes.subarray(from, to)),
  };
}

/** The first bytes of a file, without reading the rest. */
export async function headOf(file: SheetFile, bytes: number): Promise<Uint8Array> {
  const head = new Uint8Array(bytes);
  let filled = 0;
  for await (const piece of file.open()) {
    const part = piece.subarray(0, bytes - filled);
    head.set(part, filled);
    filled += part.length;
    if (filled === bytes) break;
  }
  return head.subarray(0, filled);
}
