import type { CivilDate } from "../../core/calendar/index.ts";
import { FILE_LIMITS, type Refusal, type Sheet } from "../file/index.ts";
import { matchingQuestions, type Matching, type MatchingQuestion } from "../match/index.ts";
import { lastDayOf } from "./line-row-of.ts";
import { faultTally } from "./fault-tally.ts";
import { GrowingList } from "./grown.ts";
import { inRowOrder } from "./in-row-order.ts";
import { lineContent, lineKey } from "./line-ledger.ts";
import { differenceFrom, knownOf, type KnownLines, type RegisteredLine } from "./register-lines.ts";
import { readRows, type Reading } from "./read-rows.ts";
import type { SheetLine } from "./read-row.ts";
import type { RowFault, RowFaultCode } from "./row-fault.ts";

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
  /** Every fault of the file, counted by its kind. */
  readonly counts: ReadonlyMap<RowFaultCode, number>;
  /** The first of each kind, in the order of the rows; `everyFault` reads the file again for all of them. */
  readonly faults: readonly RowFault[];
  readonly newLines: number;
  readonly sameAsBefore: number;
  readonly changedLines: number;
  /** The first of the changed. */
  readonly changed: readonly Difference[];
  readonly fingerprint: number;
  /** The last day that any line tells of: the sheet was still written then. */
  readonly lastDay: CivilDate | undefined;
  /** What was found between rows, in their order; each is made as it is asked for. */
  readonly between: Iterable<RowFault>;
  /** Every ward with its lines, as it will be counted: a spelling that was not merged is a ward of its own. */
  readonly wards: ReadonlyMap<string, number>;
  /** Every spelling of a ward with its lines, as the file writes it. */
  readonly spellings: ReadonlyMap<string, number>;
}

const STANDINGS = ["new", "same", "changed"] as const;

function changeOf(
  known: string | RegisteredLine,
  line: SheetLine,
): { readonly before: string; readonly now: string } | undefined {
  if (typeof known === "object") return differenceFrom(known, line);
  const now = lineContent(line);
  return known === now ? undefined : { before: known, now };
}

/** Looks through a whole file and imports nothing; what it keeps does not grow with the faults. */
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
  const tally = faultTally();
  const [wards, spellings] = [new Map<string, number>(), new Map<string, number>()];
  const changed: Difference[] = [];
  const standings = { new: 0, same: 0, changed: 0 };
  // the row of each line taken and how it stands to what was known, for a double is taken off where it was counted
  const rows = new GrowingList(new Int32Array(1024));
  const standing = new GrowingList(new Uint8Array(1024));
  let lastDay: CivilDate | undefined;
  const take = (line: SheetLine) => {
    const { ward } = line.words;
    if (ward) {
      const written = line.wardWritten ?? ward;
      wards.set(ward, (wards.get(ward) ?? 0) + 1);
      spellings.set(written, (spellings.get(written) ?? 0) + 1);
    }
    const day = lastDayOf([line]);
    if (lastDay === undefined || day > lastDay) lastDay = day;
    const key = lineKey(line);
    const found = knownOf(known, line, key);
    const change = found === undefined ? undefined : changeOf(found, line);
    const stands = found === undefined ? "new" : change === undefined ? "same" : "changed";
    standings[stands] += 1;
    rows.add(line.row);
    standing.add(STANDINGS.indexOf(stands));
    if (change && changed.length < FILE_LIMITS.changesKept) changed.push({ row: line.row, key, ...change });
  };
  for await (const part of readRows(sheet, reading)) {
    if (part.kind === "refused") return part;
    if (part.kind === "rows") {
      onFaults(part.faults);
      for (const fault of part.faults) tally.add(fault);
      onProgress(part.share, part.rowsRead);
      for (const line of part.lines) take(line);
      continue;
    }
    const twice = new Set<number>();
    let at = 0;
    for (const fault of part.faults) {
      onFaults([fault]);
      tally.add(fault);
      if (fault.code !== "same line twice") continue;
      while (rows.at(at) < fault.row) at += 1;
      standings[STANDINGS[standing.at(at)] as (typeof STANDINGS)[number]] -= 1;
      twice.add(fault.row);
    }
    return {
      kind: "preview",
      rowsRead: part.rowsRead,
      rowsLeftOut: part.rowsRead - rows.length + twice.size,
      counts: tally.counts,
      faults: tally.kept(),
      newLines: standings.new,
      sameAsBefore: standings.same,
      changedLines: standings.changed,
      changed: changed.filter(({ row }) => !twice.has(row)),
      fingerprint: part.fingerprint,
      lastDay,
      between: part.faults,
      wards,
      spellings,
    };
  }
  return { kind: "refused", refusal: { code: "no-rows", found: "" } };
}

/** A piece of the list of every fault of a previewed file. */
export type FaultsRead =
  | { readonly kind: "faults"; readonly faults: readonly RowFault[]; readonly share: number }
  | { readonly kind: "refused"; readonly refusal: Refusal };

/** Every fault of a previewed file in the order of its rows: the file is read again, and no list of them is held. */
export async function* everyFault(sheet: Sheet, preview: Preview, reading: Reading): AsyncGenerator<FaultsRead> {
  const between = preview.between[Symbol.iterator]();
  let next = between.next();
  function* betweenUpTo(row: number): Generator<RowFault> {
    for (; !next.done && next.value.row <= row; next = between.next()) yield next.value;
  }
  for await (const part of readRows(sheet, { ...reading, alone: true })) {
    if (part.kind === "refused") yield part;
    else if (part.kind === "rows") {
      // merged cells are told with the last rows, wherever they stand
      const last = part.lastRow;
      yield {
        kind: "faults",
        faults: [...inRowOrder([part.faults, betweenUpTo(last)], ({ row }) => row)],
        share: part.share,
      };
    } else if (part.fingerprint === preview.fingerprint)
      yield { kind: "faults", faults: [...betweenUpTo(Infinity)], share: 1 };
    else yield { kind: "refused", refusal: { code: "changed-since", found: sheet.fileName } };
  }
}

/** A person's word that what the preview showed may be taken. */
export interface Agreement {
  readonly kind: "agreed";
  readonly by: string;
  readonly matching: Matching;
  readonly preview: Preview;
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
  return { kind: "agreed", by, matching, preview };
}

/** A piece of the agreed lines, in the order of the file. */
export type LinesAgreed =
  | { readonly kind: "lines"; readonly lines: readonly SheetLine[]; readonly share: number }
  | { readonly kind: "refused"; readonly refusal: Refusal };

/**
 * The lines of an agreed file, piece by piece. Refused at the end when the file was no longer the one that was previewed:
 * what came before is then to be thrown away.
 */
export async function* agreedPieces(
  sheet: Sheet,
  { preview, matching }: Agreement,
  reading: Omit<Reading, "matching">,
): AsyncGenerator<LinesAgreed> {
  const doubles = new Set<number>();
  for (const { code, row } of preview.between) if (code === "same line twice") doubles.add(row);
  for await (const part of readRows(sheet, { ...reading, matching, alone: true })) {
    if (part.kind === "refused") yield part;
    else if (part.kind === "rows")
      yield { kind: "lines", lines: part.lines.filter(({ row }) => !doubles.has(row)), share: part.share };
    else if (part.fingerprint !== preview.fingerprint)
      yield { kind: "refused", refusal: { code: "changed-since", found: sheet.fileName } };
  }
}

/** The lines of an agreed file, all at once. */
export async function agreedLines(
  sheet: Sheet,
  agreement: Agreement,
  reading: Omit<Reading, "matching">,
): Promise<
  | { readonly kind: "lines"; readonly lines: readonly SheetLine[] }
  | { readonly kind: "refused"; readonly refusal: Refusal }
> {
  const lines: SheetLine[] = [];
  for await (const piece of agreedPieces(sheet, agreement, reading)) {
    if (piece.kind === "refused") return piece;
    for (const line of piece.lines) lines.push(line);
  }
  return { kind: "lines", lines };
}
