import { isKnown } from "../../core/missing/index.ts";
import type { AuditTable, LineFacts, LineRow } from "../line/index.ts";
import {
  absentCode,
  NUMBER_FIELDS,
  packedNumber,
  ratios,
  WORD_FIELDS,
  type NumberField,
  type PackedFacts,
  type PackedLines,
  type WordField,
} from "../packed/index.ts";

/**
 * The columns as a check of the rows left them: a row that was taken out, a value that was held, a stay or an event that
 * counts nowhere. `stopped` comes in full of ones and goes out with a nought for every row that was kept.
 */
export function keptFacts(
  facts: PackedFacts,
  { lines: rows }: AuditTable,
  kept: readonly LineFacts[],
  stopped: Uint8Array,
): PackedFacts {
  const held: { readonly line: number; readonly row: LineRow }[] = [];
  const [from, to] = [facts.stays.from.slice(), facts.stays.to.slice()];
  const dwellDays = facts.dwellDays.slice();
  const eventOutside = facts.eventOutside.slice();
  let line = 0;
  for (const own of kept) {
    // rows are kept in their order, and of two with one key the first
    while ((rows[line] as LineRow).key !== own.row.key) line += 1;
    stopped[line] = 0;
    if (own.row !== rows[line]) held.push({ line, row: own.row });
    if (own.stay === undefined) {
      from[line] = Number.NaN;
      to[line] = Number.NaN;
    }
    dwellDays[line] = own.dwellDays ?? Number.NaN;
    const first = facts.lines.events.from[line] as number;
    for (const [at, { outside }] of own.events.entries()) eventOutside[first + at] = Number(outside);
    line += 1;
  }
  const lines = held.length === 0 ? facts.lines : withHeld(facts.lines, held);
  return {
    ...facts,
    lines,
    stays: { ...facts.stays, from, to },
    longest: withoutStay(facts, from),
    dwellDays,
    eventOutside,
    ratio: lines === facts.lines ? facts.ratio : ratios(lines),
  };
}

/** A line without a stay has no longest one either. */
function withoutStay({ longest, unknown }: PackedFacts, own: Float64Array): PackedFacts["longest"] {
  const [from, to] = [longest.from.slice(), longest.to.slice()];
  for (const [at, line] of unknown.entries()) {
    if (!Number.isNaN(own[line])) continue;
    from[at] = Number.NaN;
    to[at] = Number.NaN;
  }
  return { ...longest, from, to };
}

function withHeld(lines: PackedLines, held: readonly { readonly line: number; readonly row: LineRow }[]): PackedLines {
  const numbers: Record<NumberField, Float64Array> = { ...lines.numbers };
  const words: Record<WordField, PackedLines["words"][WordField]> = { ...lines.words };
  for (const name of NUMBER_FIELDS) {
    const column = numbers[name].slice();
    for (const { line, row } of held) column[line] = packedNumber(row[name]);
    numbers[name] = column;
  }
  for (const name of WORD_FIELDS) {
    const codes = words[name].codes.slice();
    // a check takes a word away; it never puts another in its place
    for (const { line, row } of held) if (!isKnown(row[name])) codes[line] = absentCode(row[name]);
    words[name] = { words: words[name].words, codes };
  }
  return { ...lines, numbers, words };
}
