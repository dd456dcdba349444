import { missing } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { packedNumber, ratios, type PackedChecks, type PackedFacts, type PackedLines } from "../packed/index.ts";
import { coarse, HELD, heldTogether } from "./scan-lines.ts";

// What a hold rule takes out of the facts. Columns are never written into: they are the table's, and a copy is made.

const NOT_KNOWN = packedNumber(missing("not known"));

/** A line that holds some values: their bits. */
interface HeldLine {
  readonly line: number;
  readonly bits: number;
}

/** The lines with values that cannot be together, in the order of the table. */
export function heldLines(lines: PackedLines, limits: CountLimits): readonly HeldLine[] {
  const held: HeldLine[] = [];
  for (let line = 0; line < lines.count; line += 1) {
    const bits = heldTogether(lines, line, limits);
    if (bits !== 0) held.push({ line, bits });
  }
  return held;
}

/** The facts as `withoutHeld` has them: impossible values not known, and no stay where times are known to the month. */
export function withoutHeld(facts: PackedFacts, held: readonly HeldLine[], stopped: Uint8Array): PackedFacts {
  const kept = held.filter(({ line }) => stopped[line] === 0);
  const lines = kept.length === 0 ? facts.lines : withoutValues(facts.lines, kept);
  const ratio = lines === facts.lines ? facts.ratio : ratios(lines);
  return withoutStays({ ...facts, lines, ratio }, stopped);
}

function withoutValues(lines: PackedLines, held: readonly HeldLine[]): PackedLines {
  const without = (column: Float64Array, bit: number): Float64Array => {
    const own = held.filter(({ bits }) => (bits & bit) !== 0);
    if (own.length === 0) return column;
    const copy = column.slice();
    for (const { line } of own) copy[line] = NOT_KNOWN;
    return copy;
  };
  const { numbers, checks } = lines;
  return {
    ...lines,
    numbers: {
      ...numbers,
      sizeFr: without(numbers.sizeFr, HELD.sizeFr),
      lumens: without(numbers.lumens, HELD.lumens),
      // a ratio written beside a size that cannot be was made from it
      writtenRatio: without(numbers.writtenRatio, HELD.sizeFr),
    },
    checks: checks && {
      ...checks,
      numbers: {
        insideCm: without(checks.numbers.insideCm, HELD.insideCm),
        weightKg: without(checks.numbers.weightKg, HELD.weightKg),
      } satisfies PackedChecks["numbers"],
    },
  };
}

function withoutStays(facts: PackedFacts, stopped: Uint8Array): PackedFacts {
  const isCoarse = coarse(facts.lines.checks);
  const lines: number[] = [];
  for (let line = 0; line < stopped.length; line += 1) if (stopped[line] === 0 && isCoarse(line)) lines.push(line);
  if (lines.length === 0) return facts;
  const [from, to] = [facts.stays.from.slice(), facts.stays.to.slice()];
  const dwellDays = facts.dwellDays.slice();
  for (const line of lines) for (const column of [from, to, dwellDays]) column[line] = Number.NaN;
  const longest = { ...facts.longest, from: facts.longest.from.slice(), to: facts.longest.to.slice() };
  for (const [at, line] of facts.unknown.entries())
    if (stopped[line] === 0 && isCoarse(line)) for (const column of [longest.from, longest.to]) column[at] = Number.NaN;
  return { ...facts, stays: { ...facts.stays, from, to }, longest, dwellDays };
}

/** The facts with events that count for another line taken out of every figure. */
export function withoutLost(facts: PackedFacts, lost: readonly number[]): PackedFacts {
  if (lost.length === 0) return facts;
  const eventOutside = facts.eventOutside.slice();
  for (const event of lost) eventOutside[event] = 1;
  return { ...facts, eventOutside };
}
