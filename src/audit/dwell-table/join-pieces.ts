import type { Moment } from "../../core/dwell/index.ts";
import type { WardMonth } from "../line/index.ts";
import {
  CHECK_NUMBERS,
  CHECK_WORDS,
  emptyChecks,
  LIST_FIELDS,
  moments,
  NUMBER_FIELDS,
  WORD_FIELDS,
  wordList,
  type ListField,
  type NumberField,
  type PackedLines,
  type PackedReferrals,
  type PackedWords,
  type WordField,
  type WordList,
} from "../packed/index.ts";
import { readPiece, type PieceColumns } from "./piece.ts";

/** The pieces of the dwell table as the columns of one table: numbers are copied, words get one list for all. */
export function joinPieces(
  data: readonly Uint8Array[],
  asOf: Moment,
  referrals: PackedReferrals,
  wardMonths?: readonly WardMonth[],
): PackedLines {
  const pieces = data.map(readPiece);
  const count = pieces.reduce((sum, { head }) => sum + head.count, 0);
  const eventCount = pieces.reduce((sum, { head }) => sum + head.events, 0);
  const firstOf: number[] = [];
  let [next, nextEvent] = [0, 0];
  const events = {
    from: new Uint32Array(count + 1),
    kind: new Uint8Array(eventCount),
    at: moments(eventCount),
    clinical: new Int8Array(eventCount),
    surveillance: new Int8Array(eventCount),
    pairedCulture: new Int8Array(eventCount),
    mucosal: new Int8Array(eventCount),
    cleared: moments(eventCount),
  };
  const [placed, knownFrom, end] = [moments(count), moments(count), moments(count)];
  const numbers = NUMBER_FIELDS.map(() => new Float64Array(count));
  const codes = [...WORD_FIELDS, ...LIST_FIELDS, "reason"].map(() => new Int32Array(count));
  const patient = new Int32Array(count);
  const endKind = new Uint8Array(count);
  const owned = new Int8Array(count);
  // where no line has checks their columns are read into nothing that is kept
  const checkWords = CHECK_WORDS.map(() => wordList());
  const checks = pieces.some(({ head }) => head.checked)
    ? emptyChecks(
        count,
        checkWords.map(({ words }) => words),
      )
    : undefined;
  const intoNumbers = [
    placed.at,
    knownFrom.at,
    end.at,
    ...numbers,
    ...(checks ? CHECK_NUMBERS.map((name) => checks.numbers[name]) : []),
  ];
  const intoOffsets = [placed.offset, knownFrom.offset, end.offset];
  const intoFlags = [events.clinical, events.surveillance, events.pairedCulture, events.mucosal];
  const reasons = wordList();
  const words = WORD_FIELDS.map(() => wordList());
  const lists = LIST_FIELDS.map(() => wordList());
  const allWords = [reasons, ...words, ...lists, ...checkWords];
  const intoCodes = [...codes, ...(checks ? CHECK_WORDS.map((name) => checks.words[name].codes) : [])];
  for (const piece of pieces) {
    firstOf.push(next);
    const { head } = piece;
    for (const [at, into] of intoNumbers.entries())
      fill(into, piece.numbers[at] as Float64Array | number, next, head.count);
    fill(events.at.at, piece.numbers.at(-2) as Float64Array | number, nextEvent, head.events);
    fill(events.cleared.at, piece.numbers.at(-1) as Float64Array | number, nextEvent, head.events);
    for (const [at, into] of intoOffsets.entries()) into.set(piece.offsets[at] as Int16Array, next);
    for (const [at, into] of intoFlags.entries()) into.set(piece.flags[at] as Int8Array, nextEvent);
    events.at.offset.set(piece.eventOffset, nextEvent);
    events.cleared.offset.set(piece.clearedOffset, nextEvent);
    events.kind.set(piece.eventKind, nextEvent);
    endKind.set(piece.endKind, next);
    owned.set(piece.owned, next);
    checks?.has.set(piece.hasChecks, next);
    patient.set(piece.person, next);
    for (let at = 0; at < head.count; at += 1) events.from[next + at] = nextEvent + (piece.eventFrom[at] as number);
    const local = [
      head.reasons,
      ...head.words,
      ...head.lists.map((list) => list.map((items) => JSON.stringify(items))),
      ...head.checkWords,
    ];
    for (const [at, into] of intoCodes.entries()) {
      const global = (local[at] as readonly string[]).map((allWords[at] as WordList).codeOf);
      const from = piece.codes[at] as Int16Array;
      for (let line = 0; line < head.count; line += 1) {
        const code = from[line] as number;
        // a line that was not removed has no reason: its code stands for nothing
        into[next + line] = code < 0 ? code : (global[code] ?? 0);
      }
    }
    next += head.count;
    nextEvent += head.events;
  }
  events.from[count] = nextEvent;
  const named = <Name extends string, Value>(names: readonly Name[], of: (at: number) => Value) =>
    Object.fromEntries(names.map((name, at) => [name, of(at)])) as Record<Name, Value>;
  const textAt = <Text>(line: number, of: (piece: PieceColumns) => readonly Text[]): Text => {
    let at = Math.min(firstOf.length - 1, Math.floor((line * firstOf.length) / Math.max(1, count)));
    while (at > 0 && (firstOf[at] as number) > line) at -= 1;
    while (at + 1 < firstOf.length && (firstOf[at + 1] as number) <= line) at += 1;
    return of(pieces[at] as PieceColumns)[line - (firstOf[at] as number)] as Text;
  };
  return {
    asOf,
    count,
    keyAt: (line) => textAt(line, ({ keys }) => keys()),
    keysDiffer: true,
    patient,
    patientAt: (line) => textAt(line, ({ patients }) => patients()),
    placed,
    knownFrom,
    end,
    endKind,
    endReason: { codes: codes[0] as Int32Array, words: reasons.words },
    numbers: named<NumberField, Float64Array>(NUMBER_FIELDS, (at) => numbers[at] as Float64Array),
    words: named<WordField, PackedWords>(WORD_FIELDS, (at) => ({
      codes: codes[1 + at] as Int32Array,
      words: (words[at] as ReturnType<typeof wordList>).words,
    })),
    lists: named<ListField, PackedLines["lists"][ListField]>(LIST_FIELDS, (at) => ({
      codes: codes[1 + WORD_FIELDS.length + at] as Int32Array,
      lists: (lists[at] as ReturnType<typeof wordList>).words.map((text) => JSON.parse(text) as readonly string[]),
    })),
    owned,
    events,
    // the record dates every event
    undated: undefined,
    checks,
    referrals,
    wardMonths,
  };
}

function fill(into: Float64Array, from: Float64Array | number, at: number, count: number): void {
  if (typeof from === "number") into.fill(from, at, at + count);
  else into.set(from, at);
}
