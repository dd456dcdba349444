import { isMissing, missing, type Maybe } from "../../core/missing/index.ts";
import { ROW_EVENTS, type LineRow, type RowEnd } from "../line/index.ts";
import {
  absentCode,
  END_KINDS,
  LIST_FIELDS,
  moments,
  NUMBER_FIELDS,
  packedAnswer,
  packedNumber,
  packMoment,
  WORD_FIELDS,
  type ListField,
  type NumberField,
  type PackedLines,
  type PackedWords,
  type WordField,
} from "./packed-lines.ts";
import { packChecks } from "./packed-checks.ts";
import { packUndated } from "./packed-undated.ts";
import { packReferrals } from "./packed-referrals.ts";
import { wordList, type WordList } from "./word-list.ts";
import type { AuditTable } from "../line/index.ts";

const NOT_ASKED = missing("not asked");

type Filled<Name extends string, Value> = Readonly<Record<Name, Value>>;
const each = <Name extends string, Value>(names: readonly Name[], make: (name: Name) => Value): Filled<Name, Value> =>
  Object.fromEntries(names.map((name) => [name, make(name)])) as Filled<Name, Value>;

/** Rows into columns; `rowAt` gives every row back as it was. */
export function packRows({ asOf, lines: rows, referrals, wardMonths }: AuditTable): PackedLines {
  const count = rows.length;
  let events = 0;
  for (const row of rows) events += row.events.length;
  const patients = wordList();
  const reasons = wordList();
  const named = each<WordField, WordList>(WORD_FIELDS, () => wordList());
  const listed = each<ListField, WordList>(LIST_FIELDS, () => wordList());
  const packed = {
    patient: new Int32Array(count),
    placed: moments(count),
    knownFrom: moments(count),
    end: moments(count),
    endKind: new Uint8Array(count),
    endReason: { codes: new Int32Array(count), words: reasons.words },
    numbers: each<NumberField, Float64Array>(NUMBER_FIELDS, () => new Float64Array(count)),
    words: each<WordField, PackedWords>(WORD_FIELDS, (name) => ({
      codes: new Int32Array(count),
      words: named[name].words,
    })),
    lists: each<ListField, { readonly codes: Int32Array }>(LIST_FIELDS, () => ({ codes: new Int32Array(count) })),
    owned: new Int8Array(count),
    events: {
      from: new Uint32Array(count + 1),
      kind: new Uint8Array(events),
      at: moments(events),
      clinical: new Int8Array(events),
      surveillance: new Int8Array(events),
      pairedCulture: new Int8Array(events),
      mucosal: new Int8Array(events),
      cleared: moments(events),
    },
  };
  const codeIn = (list: WordList, value: Maybe<string>): number =>
    isMissing(value) ? absentCode(value) : list.codeOf(value);
  let next = 0;
  for (let at = 0; at < count; at += 1) {
    const row = rows[at] as LineRow;
    packed.patient[at] = patients.codeOf(row.patient);
    packMoment(packed.placed, at, row.placed);
    packMoment(packed.knownFrom, at, row.knownFrom);
    packMoment(packed.end, at, momentOfEnd(row.end));
    packed.endKind[at] = END_KINDS.indexOf(row.end.kind);
    packed.endReason.codes[at] = row.end.kind === "removed" ? codeIn(reasons, row.end.reason) : 0;
    packed.owned[at] = packedAnswer(row.owned);
    packed.events.from[at] = next;
    for (const { kind, at: moment, clinical, surveillance, pairedCulture, mucosal, clearedAt } of row.events) {
      packed.events.kind[next] = ROW_EVENTS.indexOf(kind);
      packMoment(packed.events.at, next, moment);
      packed.events.clinical[next] = packedAnswer(clinical);
      packed.events.surveillance[next] = packedAnswer(surveillance);
      packed.events.pairedCulture[next] = packedAnswer(pairedCulture);
      packed.events.mucosal[next] = packedAnswer(mucosal ?? NOT_ASKED);
      packMoment(packed.events.cleared, next, clearedAt);
      next += 1;
    }
  }
  packed.events.from[count] = next;
  // field by field: the same access again and again is what the compiler is quickest at
  for (const name of NUMBER_FIELDS) {
    const column = packed.numbers[name];
    for (let at = 0; at < count; at += 1) column[at] = packedNumber((rows[at] as LineRow)[name]);
  }
  for (const name of WORD_FIELDS) {
    const [{ codes }, list] = [packed.words[name], named[name]];
    for (let at = 0; at < count; at += 1) codes[at] = codeIn(list, (rows[at] as LineRow)[name]);
  }
  for (const name of LIST_FIELDS) {
    const [{ codes }, list] = [packed.lists[name], listed[name]];
    for (let at = 0; at < count; at += 1) {
      const items = (rows[at] as LineRow)[name];
      codes[at] = isMissing(items) ? absentCode(items) : list.codeOf(items.length === 0 ? "[]" : JSON.stringify(items));
    }
  }
  return {
    ...packed,
    asOf,
    count,
    keyAt: (at) => (rows[at] as LineRow).key,
    keysDiffer: false,
    patientAt: (at) => (rows[at] as LineRow).patient,
    lists: each(LIST_FIELDS, (name) => ({
      codes: packed.lists[name].codes,
      lists: listed[name].words.map((text) => JSON.parse(text) as readonly string[]),
    })),
    undated: packUndated(rows),
    checks: packChecks(rows),
    referrals: packReferrals(referrals),
    wardMonths,
  };
}

const momentOfEnd = (end: RowEnd) => (end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown);
