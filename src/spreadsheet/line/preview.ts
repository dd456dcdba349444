import type { CivilDate } from "../../core/calendar/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import { Refused, type CancelSign, type Refusal, type Sheet } from "../file/index.ts";
import { matchingQuestions, type FieldName, type Matching, type MatchingQuestion } from "../match/index.ts";
import { doubtLedger } from "./doubt-ledger.ts";
import { keyNumber, lineContent, lineKey, lineLedger } from "./line-ledger.ts";
import { differenceFrom, knownOf, type KnownLines, type RegisteredLine } from "./register-lines.ts";
import { readRow, rowReader, type SheetLine } from "./read-row.ts";
import type { RowFault, RowFaultCode } from "./row-fault.ts";

export interface Reading {
  readonly matching: Matching;
  readonly limits: SheetLimits;
  /** Later than this nothing can have happened. */
  readonly today: CivilDate;
  readonly cancel?: CancelSign;
}

/** A piece of the reading, in the order of the file; the faults between rows come last. */
export type RowsRead =
  | {
      readonly kind: "rows";
      readonly lines: readonly SheetLine[];
      readonly faults: readonly RowFault[];
      readonly share: number;
      readonly rowsRead: number;
    }
  | {
      readonly kind: "between rows";
      readonly faults: readonly RowFault[];
      readonly rowsRead: number;
      readonly fingerprint: number;
    }
  | { readonly kind: "refused"; readonly refusal: Refusal };

/** Reads every row as the matching says, in bounded memory, with its progress; a cancelled reading ends in a refusal. */
export async function* readRows(sheet: Sheet, { matching, limits, today, cancel }: Reading): AsyncGenerator<RowsRead> {
  const reader = rowReader(sheet.headers, matching, limits, today);
  const ledger = lineLedger();
  const doubts = doubtLedger(limits);
  const headerOf = (field: FieldName) => reader.columns.find((one) => one.field === field)?.match.header ?? "";
  let rowsRead = 0;
  let fingerprint = 0;
  try {
    for await (const batch of sheet.rows(cancel)) {
      const lines: SheetLine[] = [];
      const faults: RowFault[] = [];
      for (const row of batch.rows) {
        const reading = readRow(reader, row);
        for (const fault of reading.faults) faults.push(fault);
        fingerprint = (fingerprint * 31 + keyNumber(row.cells.join("\u001F"))) % 9_007_199_254_740_881;
        if (!reading.line) continue;
        lines.push(reading.line);
        ledger.add(reading.line);
        doubts.add(reading.line);
      }
      rowsRead += batch.rows.length;
      for (const { row, found } of batch.merged ?? [])
        faults.push({ row, column: "", field: undefined, code: "merged cells", found, against: "" });
      yield {
        kind: "rows",
        lines,
        faults,
        rowsRead,
        share: batch.bytesInAll > 0 ? batch.bytesRead / batch.bytesInAll : 0,
      };
    }
    const faults = [...ledger.faults(), ...doubts.faults(headerOf)];
    yield { kind: "between rows", faults, rowsRead, fingerprint };
  } catch (fault) {
    if (!(fault instanceof Refused)) throw fault;
    yield { kind: "refused", refusal: fault.refusal };
  }
}

/** A line that was imported before: its key and its values as text. */
export interface KnownLine {
  readonly key: string;
  readonly content: string;
}

export interface Difference {
  readonly row: number;
  readonly key: string;
  readonly before: string;
  readonly now: string;
}

export interface Preview {
  readonly kind: "preview";
  readonly rowsRead: number;
  readonly rowsLeftOut: number;
  readonly counts: ReadonlyMap<RowFaultCode, number>;
  /** The first of them; every one went through `onFaults`. */
  readonly faults: readonly RowFault[];
  readonly newLines: number;
  readonly sameAsBefore: number;
  readonly changed: readonly Difference[];
  readonly fingerprint: number;
  /** Every spelling of a ward with its lines: each counts as a ward of its own. */
  readonly wards: ReadonlyMap<string, number>;
}

const KEPT = 1000;

function changeOf(
  known: string | RegisteredLine,
  line: SheetLine,
): { readonly before: string; readonly now: string } | undefined {
  if (typeof known === "object") return differenceFrom(known, line);
  const now = lineContent(line);
  return known === now ? undefined : { before: known, now };
}

/** Looks through a whole file and imports nothing. */
export async function previewFaults(
  sheet: Sheet,
  reading: Reading,
  {
    known = new Map(),
    onFaults = () => undefined,
    onProgress = () => undefined,
  }: {
    readonly known?: KnownLines;
    readonly onFaults?: (faults: readonly RowFault[]) => void;
    readonly onProgress?: (share: number, rowsRead: number) => void;
  } = {},
): Promise<Preview | { readonly kind: "refused"; readonly refusal: Refusal }> {
  const counts = new Map<RowFaultCode, number>();
  const wards = new Map<string, number>();
  const kept: RowFault[] = [];
  const changed: Difference[] = [];
  let taken = 0;
  let fresh = 0;
  let same = 0;
  const sameRows = new Set<number>();
  const note = (faults: readonly RowFault[]) => {
    onFaults(faults);
    for (const fault of faults) {
      counts.set(fault.code, (counts.get(fault.code) ?? 0) + 1);
      if (kept.length < KEPT) kept.push(fault);
    }
  };
  for await (const part of readRows(sheet, reading)) {
    if (part.kind === "refused") return part;
    note(part.faults);
    if (part.kind === "between rows") {
      // a double has the standing of its twin: it is taken off where it was counted
      const twice = new Set(part.faults.flatMap(({ code, row }) => (code === "same line twice" ? [row] : [])));
      const doubles = twice.size;
      const sameTwice = [...twice].filter((row) => sameRows.has(row)).length;
      const changedOnce = changed.filter(({ row }) => !twice.has(row));
      return {
        kind: "preview",
        rowsRead: part.rowsRead,
        rowsLeftOut: part.rowsRead - taken + doubles,
        counts,
        faults: kept,
        newLines: fresh - (doubles - sameTwice - (changed.length - changedOnce.length)),
        sameAsBefore: same - sameTwice,
        changed: changedOnce,
        fingerprint: part.fingerprint,
        wards,
      };
    }
    onProgress(part.share, part.rowsRead);
    for (const line of part.lines) {
      taken += 1;
      const { ward } = line.words;
      if (ward) wards.set(ward, (wards.get(ward) ?? 0) + 1);
      const key = lineKey(line);
      const found = knownOf(known, line, key);
      const change = found === undefined ? undefined : changeOf(found, line);
      if (found === undefined) fresh += 1;
      else if (change === undefined) {
        same += 1;
        sameRows.add(line.row);
      } else changed.push({ row: line.row, key, ...change });
    }
  }
  return { kind: "refused", refusal: { code: "no-rows", found: "" } };
}

/** A person's word that what the preview showed may be taken. */
export interface Agreement {
  readonly kind: "agreed";
  readonly by: string;
  readonly fingerprint: number;
  readonly matching: Matching;
}

/** Turns a preview into an agreement, or into what still has to be answered first. */
export function agree(
  sheet: Sheet,
  preview: Preview,
  matching: Matching,
  by: string,
): Agreement | { readonly kind: "questions"; readonly questions: readonly MatchingQuestion[] } {
  const questions = matchingQuestions(matching, sheet);
  if (by.trim() === "") return { kind: "questions", questions: [...questions, { code: "not confirmed" }] };
  if (questions.length > 0) return { kind: "questions", questions };
  return { kind: "agreed", by, fingerprint: preview.fingerprint, matching };
}

/** The lines of an agreed file; refused when the file is no longer the one that was previewed. */
export async function agreedLines(
  sheet: Sheet,
  agreement: Agreement,
  reading: Omit<Reading, "matching">,
): Promise<
  | { readonly kind: "lines"; readonly lines: readonly SheetLine[] }
  | { readonly kind: "refused"; readonly refusal: Refusal }
> {
  const lines: SheetLine[] = [];
  const doubles = new Set<number>();
  for await (const part of readRows(sheet, { ...reading, matching: agreement.matching })) {
    if (part.kind === "refused") return part;
    if (part.kind === "rows") for (const line of part.lines) lines.push(line);
    else {
      if (part.fingerprint !== agreement.fingerprint)
        return { kind: "refused", refusal: { code: "changed-since", found: sheet.fileName } };
      for (const { code, row } of part.faults) if (code === "same line twice") doubles.add(row);
    }
  }
  return { kind: "lines", lines: lines.filter(({ row }) => !doubles.has(row)) };
}
