import { isMissing, type Maybe } from "../../core/missing/index.ts";
import type { LineRow, RowChecks } from "../line/index.ts";
import { absenceOf, absentCode, numberOf, packedNumber, type PackedWords } from "./packed-lines.ts";
import { wordList } from "./word-list.ts";

/** Fields of a row's checks: numbers, and words; the values written after an event are one word, a list as JSON. */
export const CHECK_NUMBERS = ["insideCm", "weightKg"] as const;
export const CHECK_WORDS = ["replaces", "timeKnownTo", "writtenAfter"] as const;
export type CheckNumber = (typeof CHECK_NUMBERS)[number];
export type CheckWord = (typeof CHECK_WORDS)[number];

/** What only the rules of quality read, in columns. */
export interface PackedChecks {
  /** 1 where the row has checks; the columns of any other row stand for nothing. */
  readonly has: Uint8Array;
  readonly numbers: Readonly<Record<CheckNumber, Float64Array>>;
  readonly words: Readonly<Record<CheckWord, PackedWords>>;
}

/** Columns for so many rows, none of which has checks yet. */
export const emptyChecks = (count: number, words: readonly (readonly string[])[] = [[], [], []]): PackedChecks => ({
  has: new Uint8Array(count),
  numbers: { insideCm: new Float64Array(count), weightKg: new Float64Array(count) },
  words: {
    replaces: { codes: new Int32Array(count), words: words[0] as readonly string[] },
    timeKnownTo: { codes: new Int32Array(count), words: words[1] as readonly string[] },
    writtenAfter: { codes: new Int32Array(count), words: words[2] as readonly string[] },
  },
});

/** The checks of rows in columns; undefined where no row has any. */
export function packChecks(rows: readonly LineRow[]): PackedChecks | undefined {
  if (!rows.some(({ checks }) => checks !== undefined)) return undefined;
  const lists = CHECK_WORDS.map(() => wordList());
  const packed = emptyChecks(
    rows.length,
    lists.map(({ words }) => words),
  );
  for (let at = 0; at < rows.length; at += 1) {
    const checks = (rows[at] as LineRow).checks;
    if (checks === undefined) continue;
    packed.has[at] = 1;
    for (const name of CHECK_NUMBERS) packed.numbers[name][at] = packedNumber(checks[name]);
    for (const [place, name] of CHECK_WORDS.entries()) {
      const value = textOf(checks[name]);
      const { codeOf } = lists[place] as (typeof lists)[number];
      packed.words[name].codes[at] = isMissing(value) ? absentCode(value) : codeOf(value);
    }
  }
  return packed;
}

const textOf = (value: RowChecks[CheckWord]): Maybe<string> =>
  typeof value === "string" || isMissing(value) ? value : JSON.stringify(value);

/** The checks of a row as they were packed; undefined where it had none. */
export function checksAt(checks: PackedChecks | undefined, at: number): RowChecks | undefined {
  if (checks === undefined || checks.has[at] === 0) return undefined;
  const { numbers, words } = checks;
  const word = ({ codes, words: known }: PackedWords): Maybe<string> => {
    const code = codes[at] as number;
    return code < 0 ? absenceOf(code) : (known[code] as string);
  };
  const after = word(words.writtenAfter);
  return {
    insideCm: numberOf(numbers.insideCm[at] as number),
    weightKg: numberOf(numbers.weightKg[at] as number),
    replaces: word(words.replaces),
    timeKnownTo: word(words.timeKnownTo) as RowChecks["timeKnownTo"],
    writtenAfter: isMissing(after) ? after : (JSON.parse(after) as readonly string[]),
  };
}
