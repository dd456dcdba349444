import { lineTableCsv, type LineRow } from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayRowFault } from "../../language/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import {
  agree,
  agreedLines,
  FAULT_COLUMNS,
  faultLines,
  lineContent,
  lineKey,
  lastDayOf,
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
export type SeenPreview = Refused | (Preview & { readonly faultsCsv: string });
export interface Taken {
  readonly kind: "taken";
  readonly lines: readonly LineRow[];
  readonly csv: string;
  /** Keys and contents to know the rows again; the keys hold patient numbers. */
  readonly known: string;
}

export interface HowToRead {
  readonly matching: Matching;
  readonly limits: SheetLimits;
  readonly today: CivilDate;
  readonly known: KnownLines;
}

/** A file carried from opening to its agreed lines, on a thread that may be ended. */
export interface Intake {
  readonly open: (file: File, sheetName: string | undefined, progress: (share: number) => void) => Promise<SeenOpened>;
  readonly preview: (how: HowToRead, progress: (share: number, rowsRead: number) => void) => Promise<SeenPreview>;
  readonly take: (how: HowToRead, by: string) => Promise<Taken | Refused | { readonly kind: "questions" }>;
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

/** A file read on the thread this is called on; the page calls it on a thread of its own. */
export function intakeHere(): Omit<Intake, "cancel" | "close"> {
  let sheet: Sheet | undefined;
  let preview: Preview | undefined;
  return {
    open: async (file, sheetName, onProgress) => {
      const opened = await openSheet(fileOf(file), sheetName === undefined ? {} : { sheetName }, { onProgress });
      if (opened.kind !== "sheet") return opened;
      sheet = opened;
      const { rows: _rows, ...seen } = opened;
      return seen;
    },
    preview: async ({ known, ...how }, onProgress) => {
      const csv = [`${FAULT_COLUMNS.join(",")}\r\n`];
      const answer = await previewFaults(sheet as Sheet, how, {
        known,
        onProgress,
        onFaults: (faults) => csv.push(faultLines(faults, sayRowFault)),
      });
      if (answer.kind === "refused") return answer;
      preview = answer;
      return { ...answer, faultsCsv: csv.join("") };
    },
    take: async ({ matching, limits, today }, by) => {
      const agreement = agree(sheet as Sheet, preview as Preview, matching, by);
      if (agreement.kind === "questions") return { kind: "questions" };
      const answer = await agreedLines(sheet as Sheet, agreement, { limits, today });
      if (answer.kind === "refused") return answer;
      const keyOf = saltedKeys(crypto.getRandomValues(new Uint8Array(SALT_BYTES)));
      const sheetDay = lastDayOf(answer.lines);
      const lines = answer.lines.map((line) => lineRowOf(line, keyOf, sheetDay));
      const known = answer.lines.map((line) => ({ key: lineKey(line), content: lineContent(line) }));
      return { kind: "taken", lines, csv: lineTableCsv(lines), known: `${JSON.stringify({ lines: known })}\n` };
    },
  };
}
