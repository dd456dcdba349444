import { lineTableCsv, packRows, sentLines, type LineRow, type SentLines } from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayRowFault } from "../../language/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import {
  agree,
  agreedPieces,
  everyFault,
  FAULT_COLUMNS,
  faultLines,
  lineContent,
  lineKey,
  lineRowOf,
  openSheet,
  previewFaults,
  saltedKeys,
  type KnownLines,
  type Matching,
  type Opened,
  type Preview,
  type Refusal,
  type Sheet,
  type SheetFile,
} from "../../spreadsheet/index.ts";

/** A sheet without its reader: what may pass between threads. */
export type SeenSheet = Omit<Sheet, "rows">;
type Refused = { readonly kind: "refused"; readonly refusal: Refusal };
export type SeenOpened = Exclude<Opened, Sheet> | SeenSheet;
/** A preview without what is made as it is asked for: every fault is asked for by `faults`. */
export type SeenPreview = Refused | Omit<Preview, "between">;
/** Every fault of a file as CSV. */
export type FaultList = Refused | { readonly kind: "list"; readonly csv: Blob };
export interface Taken {
  readonly kind: "taken";
  readonly lines: SentLines;
  readonly csv: Blob;
  /** Keys and contents to know the rows again, JSON; the keys hold patient numbers. */
  readonly known: Blob;
}

export interface HowToRead {
  readonly matching: Matching;
  readonly limits: SheetLimits;
  readonly today: CivilDate;
  readonly known: KnownLines;
}

export type Progress = (share: number, rowsRead: number) => void;

/** A file carried from opening to its agreed lines, on a thread that may be ended. */
export interface Intake {
  readonly open: (file: File, sheetName: string | undefined, progress: (share: number) => void) => Promise<SeenOpened>;
  readonly preview: (how: HowToRead, progress: Progress) => Promise<SeenPreview>;
  /** Reads the file once more, for the list of every fault. */
  readonly faults: (how: HowToRead, progress: Progress) => Promise<FaultList>;
  readonly take: (
    how: HowToRead,
    by: string,
    progress: Progress,
  ) => Promise<Taken | Refused | { readonly kind: "questions" }>;
  readonly cancel: () => void;
  /** Ends the thread; the file is needed no more. */
  readonly close: () => void;
}

const fileOf = (file: File): SheetFile => ({
  name: file.name,
  sizeBytes: file.size,
  open: async function* pieces() {
    const reader = file.stream().getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  },
  range: async (from, to) => new Uint8Array(await file.slice(from, to).arrayBuffer()),
});

const SALT_BYTES = 16;

/** A text that grows by pieces and is held outside this thread's memory. */
function growingFile(type: string) {
  const parts: Blob[] = [];
  let texts: string[] = [];
  let length = 0;
  const flush = () => {
    parts.push(new Blob(texts));
    [texts, length] = [[], 0];
  };
  return {
    add: (text: string) => {
      texts.push(text);
      length += text.length;
      if (length > PIECE_CHARACTERS) flush();
    },
    whole: () => {
      flush();
      return new Blob(parts, { type });
    },
  };
}
const PIECE_CHARACTERS = 4_000_000;

/** A file read on the thread this is called on; the page calls it on a thread of its own. */
export function intakeHere(): Omit<Intake, "cancel" | "close"> {
  let sheet: Sheet | undefined;
  let preview: Preview | undefined;
  return {
    open: async (file, sheetName, onProgress) => {
      const opened = await openSheet(fileOf(file), sheetName === undefined ? {} : { sheetName }, { onProgress });
      if (opened.kind !== "sheet") return opened;
      sheet = opened;
      preview = undefined;
      const { rows: _rows, ...seen } = opened;
      return seen;
    },
    preview: async ({ known, ...how }, onProgress) => {
      const answer = await previewFaults(sheet as Sheet, how, { known, onProgress });
      if (answer.kind === "refused") return answer;
      preview = answer;
      const { between: _between, ...seen } = answer;
      return seen;
    },
    faults: async ({ known: _known, ...how }, onProgress) => {
      const file = growingFile("text/csv");
      file.add(`\uFEFF${FAULT_COLUMNS.join(",")}\r\n`);
      let told = 0;
      for await (const part of everyFault(sheet as Sheet, preview as Preview, how)) {
        if (part.kind === "refused") return part;
        file.add(faultLines(part.faults, sayRowFault));
        told += part.faults.length;
        onProgress(part.share, told);
      }
      return { kind: "list", csv: file.whole() };
    },
    take: async ({ matching, limits, today }, by, onProgress) => {
      const agreement = agree(sheet as Sheet, preview as Preview, matching, by);
      if (agreement.kind === "questions") return { kind: "questions" };
      const keyOf = saltedKeys(crypto.getRandomValues(new Uint8Array(SALT_BYTES)));
      const [csv, known] = [growingFile("text/csv"), growingFile("application/json")];
      csv.add(lineTableCsv([]));
      known.add('{"lines":[');
      const rows: LineRow[] = [];
      for await (const piece of agreedPieces(sheet as Sheet, agreement, { limits, today })) {
        if (piece.kind === "refused") return piece;
        const made = piece.lines.map((line) => lineRowOf(line, keyOf, agreement.preview.lastDay));
        csv.add(lineTableCsv(made, false));
        for (const line of piece.lines) {
          const kept = JSON.stringify({ key: lineKey(line), content: lineContent(line) });
          known.add(rows.length === 0 && line === piece.lines[0] ? kept : `,${kept}`);
        }
        for (const row of made) rows.push(row);
        onProgress(piece.share, rows.length);
      }
      known.add("]}\n");
      const table = { asOf: { precision: "date", date: today }, lines: rows, referrals: [] } as const;
      return { kind: "taken", lines: sentLines(packRows(table)), csv: csv.whole(), known: known.whole() };
    },
  };
}
