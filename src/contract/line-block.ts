import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../core/calendar/index.ts";
import { MISSING_KINDS } from "../core/missing/index.ts";
import { TIP_PLACES } from "../core/tip/index.ts";
import { ARMS, VEINS, type Recorded } from "../register/index.ts";
import { checkCharacters, checkHolds } from "./check-characters.ts";
import { shown, type Fault } from "./fault.ts";
import { TIP_METHODS, type LineFacts } from "./line-facts.ts";

/** 32 signs a tired hand does not confuse: no I and no 1, no O and no 0. */
export const BLOCK_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
const LETTER_RULE = "letters and digits without I, O, 0 and 1";
const PAYLOAD_LETTERS = 8;
const LINE_LETTERS = 12;
const GROUP = 4;
const VERSION = 0;
const VERSIONS = 8;
const STAMPS = 8;
const FIRST_LOT_LINE = 4;
const LOT_SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-/. ";
const LOT_PER_LINE = 6;
const LOT_LINES = 3;
const LOT_STATES = 7; // four kinds of missing, told, from the plan, on the card only

/** A fact as one whole number: a kind of missing, or twice its place in its list, plus one while it stands from a plan. */
interface Code<Value> {
  readonly size: number;
  readonly write: (recorded: Recorded<Value>) => number;
  readonly read: (code: number) => Recorded<Value>;
}

function code<Value>(steps: number, place: (value: Value) => number, at: (place: number) => Value): Code<Value> {
  return {
    size: MISSING_KINDS.length + 2 * steps,
    write: (recorded) => {
      if ("missing" in recorded) return MISSING_KINDS.indexOf(recorded.missing);
      const found = place(recorded.value);
      if (!(found >= 0 && found < steps)) throw new RangeError(`the text block cannot carry ${String(recorded.value)}`);
      return MISSING_KINDS.length + 2 * found + (recorded.from === "plan" ? 1 : 0);
    },
    read: (number) => {
      const missing = MISSING_KINDS[number];
      if (missing !== undefined) return { missing };
      const rest = number - MISSING_KINDS.length;
      return { value: at(Math.floor(rest / 2)), from: rest % 2 === 1 ? "plan" : "imported" };
    },
  };
}

const oneOf = <const Options extends readonly string[]>(options: Options): Code<Options[number]> =>
  code<Options[number]>(
    options.length,
    (value) => options.indexOf(value),
    (place) => options[place] as Options[number],
  );
/** A number to one tenth, as a tape is read. */
const tenths = (least: number, most: number): Code<number> =>
  code(
    Math.round((most - least) * 10) + 1,
    (value) => Math.round((value - least) * 10),
    (place) => (Math.round(least * 10) + place) / 10,
  );
const FIRST_DAY = dayNumber("2000-01-01" as CivilDate);
const day: Code<CivilDate> = code(
  36_525,
  (date) => dayNumber(date) - FIRST_DAY,
  (place) => civilDateFromDayNumber(FIRST_DAY + place),
);
const lumens: Code<number> = code(
  4,
  (count) => count - 1,
  (place) => place + 1,
);
const [arm, vein, method, place] = [oneOf(ARMS), oneOf(VEINS), oneOf(TIP_METHODS), oneOf(TIP_PLACES)];
const [french, short, long] = [tenths(1, 9), tenths(0, 40), tenths(0, 70)];

/** How many values each number of a line can take: they are written as one number to these bases. */
const BASES: readonly (readonly number[])[] = [
  [VERSIONS, 8, 1000, 2, day.size],
  [STAMPS, arm.size, vein.size, french.size, lumens.size, short.size],
  [STAMPS, long.size, short.size, day.size],
  [STAMPS, method.size, place.size, day.size],
];
const LOT_BASES = [STAMPS, LOT_STATES, ...Array.from({ length: LOT_PER_LINE }, () => LOT_SIGNS.length + 1)];

/**
 * The device's facts as lines of twelve letters in three groups, to be typed by a person who has nothing but the card.
 * Each line begins with its own letter and ends in two check letters by ISO/IEC 7064 MOD 1271-36, so one wrong letter or
 * one swap is always caught and named by its line. Throws a RangeError for a value outside the record's own limits.
 * Lengths are carried to 1 mm. Example: a line begins "A" for the first, "B" for the second.
 */
export function writeLineBlock(facts: LineFacts): readonly string[] {
  const lot = lotNumbers(facts.lotNumber);
  const stamp = facts.issue % STAMPS;
  const numbers = [
    [VERSION, FIRST_LOT_LINE + lot.length, facts.issue, facts.came === "placed" ? 0 : 1, day.write(facts.placedOn)],
    [
      stamp,
      arm.write(facts.arm),
      vein.write(facts.vein),
      french.write(facts.french),
      lumens.write(facts.lumens),
      short.write(facts.skinExitCm),
    ],
    [stamp, long.write(facts.insideCm), short.write(facts.outsideCm), day.write(facts.outsideOn)],
    [stamp, method.write(facts.tipMethod), place.write(facts.tipPlace), day.write(facts.tipOn)],
    ...lot.map((signs) => [stamp, ...signs]),
  ];
  return numbers.map((line, index) => grouped(sealed(index, packed(line, BASES[index] ?? LOT_BASES))));
}

function lotNumbers(lot: Recorded<string> | undefined): readonly (readonly number[])[] {
  const nothing = Array.from({ length: LOT_PER_LINE }, () => 0);
  if (lot === undefined) return [[LOT_STATES - 1, ...nothing]];
  if ("missing" in lot) return [[MISSING_KINDS.indexOf(lot.missing), ...nothing]];
  const signs = Array.from(lot.value).map((sign) => LOT_SIGNS.indexOf(sign) + 1);
  if (signs.includes(0) || signs.length > LOT_PER_LINE * LOT_LINES) return [[LOT_STATES - 1, ...nothing]];
  const state = MISSING_KINDS.length + (lot.from === "plan" ? 1 : 0);
  return Array.from({ length: Math.max(1, Math.ceil(signs.length / LOT_PER_LINE)) }, (_, line) => {
    const part = signs.slice(line * LOT_PER_LINE, (line + 1) * LOT_PER_LINE);
    return [state, ...part, ...nothing.slice(part.length)];
  });
}

/** Several numbers as one, the first one most significant; at most 2^40, so no digit is lost. */
function packed(numbers: readonly number[], bases: readonly number[]): string {
  let whole = 0;
  for (const [index, number] of numbers.entries()) {
    const base = bases[index] as number;
    if (!(number >= 0 && number < base)) throw new RangeError(`the text block cannot carry ${number}`);
    whole = whole * base + number;
  }
  let text = "";
  for (let letter = 0; letter < PAYLOAD_LETTERS; letter += 1) {
    text = BLOCK_LETTERS.charAt(whole % BLOCK_LETTERS.length) + text;
    whole = Math.floor(whole / BLOCK_LETTERS.length);
  }
  return text;
}

/** Check characters may fall on a sign that the block leaves out; the letter before them is chosen so that they do not. */
function sealed(index: number, payload: string): string {
  for (const letter of BLOCK_LETTERS) {
    const text = `${BLOCK_LETTERS.charAt(index)}${payload}${letter}`;
    const check = checkCharacters(text);
    if (Array.from(check).every((sign) => BLOCK_LETTERS.includes(sign))) return text + check;
  }
  throw new RangeError("no letter before the check fits");
}

const grouped = (line: string): string => (line.match(new RegExp(`.{${GROUP}}`, "g")) ?? []).join(" ");

export type LineBlockReading =
  | { readonly kind: "read"; readonly facts: LineFacts }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

/** Reads a typed block: spaces, dashes and small letters do not matter, nor the order of the lines. Every fault by line. */
export function readLineBlock(text: string): LineBlockReading {
  const typed = text
    .split("\n")
    .map((line) => line.replaceAll(/[\s-]/g, "").toUpperCase())
    .flatMap((line) => (line.length % LINE_LETTERS === 0 ? (line.match(/.{12}/g) ?? []) : [line]))
    .filter((line) => line !== "");
  const faults: Fault[] = [];
  const byIndex = new Map<number, readonly number[]>();
  for (const [at, line] of typed.entries()) {
    const path = `line ${at + 1}`;
    const fault = lineFault(line, path);
    if (fault) {
      faults.push(fault);
      continue;
    }
    const index = BLOCK_LETTERS.indexOf(line.charAt(0));
    const numbers = index < FIRST_LOT_LINE + LOT_LINES ? unpacked(line, BASES[index] ?? LOT_BASES) : undefined;
    if (!numbers) faults.push({ path, code: "unknown-field", found: shown(line), rule: "a line of this block" });
    else if (byIndex.has(index)) faults.push({ path, code: "twice", found: shown(line), rule: "each line once" });
    else byIndex.set(index, numbers);
  }
  faults.push(...acrossLines(byIndex, faults.length > 0));
  return faults.length > 0 ? { kind: "faults", faults } : { kind: "read", facts: factsOf(byIndex) };
}

function lineFault(line: string, path: string): Fault | undefined {
  const foreign = Array.from(line).find((sign) => !BLOCK_LETTERS.includes(sign));
  if (foreign !== undefined) return { path, code: "not-in-list", found: foreign, rule: LETTER_RULE };
  if (line.length !== LINE_LETTERS)
    return { path, code: "wrong-length", found: `${line.length} letters`, rule: "twelve letters in three groups" };
  return checkHolds(line) ? undefined : { path, code: "check-letters", found: shown(line), rule: "its check letters" };
}

function unpacked(line: string, bases: readonly number[]): readonly number[] | undefined {
  let whole = 0;
  for (const sign of line.slice(1, 1 + PAYLOAD_LETTERS))
    whole = whole * BLOCK_LETTERS.length + BLOCK_LETTERS.indexOf(sign);
  const numbers: number[] = [];
  for (const base of [...bases].reverse()) {
    numbers.unshift(whole % base);
    whole = Math.floor(whole / base);
  }
  return whole === 0 ? numbers : undefined;
}

/** What no single line shows: one that is missing, a later form of block, a line of another issue of the card. */
function acrossLines(lines: ReadonlyMap<number, readonly number[]>, others: boolean): readonly Fault[] {
  const [version, count = FIRST_LOT_LINE + 1, issue = 0] = lines.get(0) ?? [];
  if (version !== undefined && version !== VERSION)
    return [{ path: "line A", code: "not-in-list", found: `form ${version}`, rule: `form ${VERSION} of the block` }];
  const faults: Fault[] = [];
  for (let index = 0; index < (others ? 0 : count); index += 1) {
    const path = `line ${BLOCK_LETTERS.charAt(index)}`;
    const numbers = lines.get(index);
    if (!numbers) faults.push({ path, code: "missing-field", found: "nothing", rule: `${count} lines` });
    else if (index > 0 && lines.has(0) && numbers[0] !== issue % STAMPS)
      faults.push({ path, code: "contradicts", found: "a line of another issue", rule: `issue ${issue} of the card` });
  }
  for (const index of lines.keys())
    if (index >= count && lines.has(0) && !others)
      faults.push({
        path: `line ${BLOCK_LETTERS.charAt(index)}`,
        code: "contradicts",
        found: "a line too many",
        rule: `${count} lines`,
      });
  return faults;
}

function factsOf(lines: ReadonlyMap<number, readonly number[]>): LineFacts {
  const of = (index: number) => lines.get(index) as readonly number[];
  const n = (index: number, at: number) => of(index)[at] as number;
  const lot = [...lines.keys()].filter((index) => index >= FIRST_LOT_LINE).sort((a, b) => a - b);
  const state = n(FIRST_LOT_LINE, 1);
  const kind = MISSING_KINDS[state];
  const signs = lot.flatMap((index) => of(index).slice(2)).filter((sign) => sign > 0);
  const written = signs.map((sign) => LOT_SIGNS.charAt(sign - 1)).join("");
  const from = state === MISSING_KINDS.length ? "imported" : "plan";
  return {
    issue: n(0, 2),
    came: n(0, 3) === 0 ? "placed" : "found",
    placedOn: day.read(n(0, 4)),
    arm: arm.read(n(1, 1)),
    vein: vein.read(n(1, 2)),
    french: french.read(n(1, 3)),
    lumens: lumens.read(n(1, 4)),
    skinExitCm: short.read(n(1, 5)),
    insideCm: long.read(n(2, 1)),
    outsideCm: short.read(n(2, 2)),
    outsideOn: day.read(n(2, 3)),
    tipMethod: method.read(n(3, 1)),
    tipPlace: place.read(n(3, 2)),
    tipOn: day.read(n(3, 3)),
    lotNumber: state === LOT_STATES - 1 ? undefined : kind !== undefined ? { missing: kind } : { value: written, from },
  };
}
