import {
  CHECK_NUMBERS,
  CHECK_WORDS,
  emptyChecks,
  LIST_FIELDS,
  NUMBER_FIELDS,
  WORD_FIELDS,
  type PackedLines,
} from "../packed/index.ts";
import { sealedBytes, unsealedBytes } from "./piece-seal.ts";

/**
 * One piece of the dwell table as bytes:
 *   length of the head (4 bytes), head (JSON), then the columns, the widest first so that each stands on its own width
 * A number column of one value stands in the head alone. The machine's own byte order, which is the small end first on
 * every machine Node runs on. A check sum stands last: a piece that is not as it was written is refused, and the table
 * is then folded again.
 */
interface Head {
  readonly count: number;
  readonly events: number;
  /** Number columns that hold one value throughout, by their place among the number columns. */
  readonly same: Readonly<Record<string, number>>;
  readonly reasons: readonly string[];
  readonly words: readonly (readonly string[])[];
  readonly lists: readonly (readonly (readonly string[])[])[];
  readonly keys: number;
  readonly patients: number;
  /** Whether any line has checks, and the words of theirs. */
  readonly checked: boolean;
  readonly checkWords: readonly (readonly string[])[];
}

/** The columns of a piece, in the order they are written. Codes are places in the piece's own lists of words. */
export interface PieceColumns {
  readonly head: Head;
  readonly numbers: readonly (Float64Array | number)[];
  readonly person: Int32Array;
  readonly eventFrom: Uint32Array;
  readonly codes: readonly Int16Array[];
  readonly offsets: readonly Int16Array[];
  /** The place of each line within the piece's share of places: absent lines leave gaps. */
  readonly slots: Int16Array;
  readonly eventOffset: Int16Array;
  readonly clearedOffset: Int16Array;
  readonly endKind: Uint8Array;
  readonly owned: Int8Array;
  readonly eventKind: Uint8Array;
  readonly flags: readonly Int8Array[];
  readonly keys: () => readonly string[];
  readonly hasChecks: Uint8Array;
  readonly patients: () => readonly string[];
}

const LINE_NUMBERS = 3 + NUMBER_FIELDS.length + CHECK_NUMBERS.length;
const CODES = 1 + WORD_FIELDS.length + LIST_FIELDS.length + CHECK_WORDS.length;
const OFFSETS = 3;
const FLAGS = 4;
const encoder = new TextEncoder();
const decoder = new TextDecoder();
const padded = (bytes: number): number => Math.ceil(bytes / 8) * 8;

/** Packed lines, with the slot and the person of each, as the bytes of a piece. */
export function pieceBytes(lines: PackedLines, slots: readonly number[], persons: readonly number[]): Uint8Array {
  const { events } = lines;
  const checks = lines.checks ?? emptyChecks(lines.count);
  const numbers = [
    lines.placed.at,
    lines.knownFrom.at,
    lines.end.at,
    ...NUMBER_FIELDS.map((name) => lines.numbers[name]),
    ...CHECK_NUMBERS.map((name) => checks.numbers[name]),
    events.at.at,
    events.cleared.at,
  ];
  const same: Record<string, number> = {};
  for (const [at, column] of numbers.entries())
    if (column.every((value) => value === column[0])) same[at] = column[0] ?? 0;
  const indexes = Array.from({ length: lines.count }, (_, at) => at);
  const keys = encoder.encode(JSON.stringify(indexes.map((at) => lines.keyAt(at))));
  const patients = encoder.encode(JSON.stringify(indexes.map((at) => lines.patientAt(at))));
  const head: Head = {
    count: lines.count,
    events: events.kind.length,
    same,
    reasons: lines.endReason.words,
    words: WORD_FIELDS.map((name) => lines.words[name].words),
    lists: LIST_FIELDS.map((name) => lines.lists[name].lists),
    keys: keys.length,
    patients: patients.length,
    checked: lines.checks !== undefined,
    checkWords: CHECK_WORDS.map((name) => checks.words[name].words),
  };
  const codes = [
    lines.endReason.codes,
    ...WORD_FIELDS.map((name) => lines.words[name].codes),
    ...LIST_FIELDS.map((name) => lines.lists[name].codes),
    ...CHECK_WORDS.map((name) => checks.words[name].codes),
  ];
  const text = encoder.encode(JSON.stringify(head));
  const columns: readonly ArrayBufferView[] = [
    ...numbers.filter((_, at) => same[at] === undefined),
    Int32Array.from(persons),
    events.from,
    ...codes.map((column) => Int16Array.from(column)),
    lines.placed.offset,
    lines.knownFrom.offset,
    lines.end.offset,
    Int16Array.from(slots),
    events.at.offset,
    events.cleared.offset,
    lines.endKind,
    lines.owned,
    checks.has,
    events.kind,
    events.clinical,
    events.surveillance,
    events.pairedCulture,
    events.mucosal,
    keys,
    patients,
  ];
  const start = padded(4 + text.length);
  const bytes = new Uint8Array(start + columns.reduce((sum, { byteLength }) => sum + byteLength, 0));
  new Uint32Array(bytes.buffer, 0, 1)[0] = text.length;
  bytes.set(text, 4);
  let at = start;
  for (const { buffer, byteOffset, byteLength } of columns) {
    bytes.set(new Uint8Array(buffer, byteOffset, byteLength), at);
    at += byteLength;
  }
  return sealedBytes("line", bytes);
}

/** The columns of a piece; its keys are read when they are asked for. Errors: SpoiltPiece. */
export function readPiece(data: Uint8Array): PieceColumns {
  const bytes = unsealedBytes("line", data);
  const headLength = new Uint32Array(bytes.buffer, 0, 1)[0] as number;
  const head = JSON.parse(decoder.decode(bytes.subarray(4, 4 + headLength))) as Head;
  const { count, events } = head;
  let at = padded(4 + headLength);
  const take = <Column>(
    Kind: new (buffer: ArrayBuffer, at: number, length: number) => Column,
    length: number,
    width: number,
  ): Column => {
    const column = new Kind(bytes.buffer, at, length);
    at += length * width;
    return column;
  };
  const some = <Column>(many: number, make: () => Column): readonly Column[] => Array.from({ length: many }, make);
  const numbers = Array.from(
    { length: LINE_NUMBERS + 2 },
    (_, place) => head.same[place] ?? take(Float64Array, place < LINE_NUMBERS ? count : events, 8),
  );
  const person = take(Int32Array, count, 4);
  const eventFrom = take(Uint32Array, count + 1, 4);
  const codes = some(CODES, () => take(Int16Array, count, 2));
  const offsets = some(OFFSETS, () => take(Int16Array, count, 2));
  const slots = take(Int16Array, count, 2);
  const eventOffset = take(Int16Array, events, 2);
  const clearedOffset = take(Int16Array, events, 2);
  const endKind = take(Uint8Array, count, 1);
  const owned = take(Int8Array, count, 1);
  const hasChecks = take(Uint8Array, count, 1);
  const eventKind = take(Uint8Array, events, 1);
  const flags = some(FLAGS, () => take(Int8Array, events, 1));
  const keys = take(Uint8Array, head.keys, 1);
  const patients = take(Uint8Array, head.patients, 1);
  return {
    head,
    numbers,
    person,
    eventFrom,
    codes,
    offsets,
    slots,
    eventOffset,
    clearedOffset,
    endKind,
    owned,
    hasChecks,
    eventKind,
    flags,
    keys: later(keys, (read) => read as readonly string[]),
    patients: later(patients, (read) => read as readonly string[]),
  };
}

/** Reads JSON when it is first asked for. */
function later<Read>(bytes: Uint8Array, as: (read: unknown) => Read): () => Read {
  let known: Read | undefined;
  return () => (known ??= as(JSON.parse(decoder.decode(bytes))));
}
