import { CARE_ITEMS } from "../../core/care/index.ts";
import { isMissing, type Maybe } from "../../core/missing/index.ts";
import { OPEN_SIGN, SIGN_STOP, TIP_STOP } from "../../core/release/index.ts";
import { fieldsOf, type LineAnswer } from "../../register/index.ts";
import { LINE_COLUMNS, type AuditTable, type LineRow } from "../line/index.ts";

/** What a word of the house leaves as, by its column; the same word of a column always gets the same code. */
export type CodeOf = (column: string, word: string) => string;

/** A word of the house with its code and the rows it stands in. The word is for the house itself: it goes nowhere else. */
export interface HouseWord {
  readonly column: string;
  readonly code: string;
  readonly word: string;
  readonly rows: number;
}

/** The stops of a line and of an arm that our rules know by name; a code somebody typed is no stop of ours, whatever its shape. */
export const STOP_CODES: readonly string[] = [
  TIP_STOP,
  SIGN_STOP,
  OPEN_SIGN,
  "arm-barred",
  "film-longer-than-inside",
  "film-tip-not-in-cava",
  "numbers-differ",
  "release-ended-needs-new-tip",
  "release-none",
  "release-sides-differ",
  "release-tip-corrected-since",
  "release-tip-not-central",
  "release-tip-not-good",
  "release-tip-not-read",
  "release-tip-not-read-again",
  "release-tip-place-missing",
  "release-tip-too-deep",
  "sides-differ",
];

/** What the record itself writes of care that is overdue. */
const DUE_ITEMS: readonly string[] = [
  ...CARE_ITEMS,
  "visit",
  "owner, place and date",
] satisfies readonly LineAnswer["due"][number]["what"][];

const optionsOf = (column: string): readonly string[] =>
  LINE_COLUMNS.find(({ name }) => name === column)?.options ?? [];

const instead = fieldsOf("referral", "ReferralDecided")?.["instead"];

/** The words that may leave as they stand, by column; of a ward none may, for its name is the house's own. */
const OURS: Readonly<Record<string, ReadonlySet<string>>> = Object.fromEntries(
  Object.entries({
    ward: [],
    overrides: STOP_CODES,
    overdue_care: DUE_ITEMS,
    written_after: LINE_COLUMNS.map(({ name }) => name),
    instead: instead?.kind === "choice" ? instead.options : [],
    ...Object.fromEntries(
      [
        "end_reason",
        "side",
        "vein",
        "setting",
        "diagnosis",
        "indication",
        "tip_method",
        "tip_place",
        "time_known_to",
      ].map((column) => [column, optionsOf(column)] as const),
    ),
  }).map(([column, words]) => [column, new Set(words)]),
);

/**
 * The table with every word that is not one of a closed list replaced by its code, and the words that were.
 * Nothing is guessed from the shape of a word: a name may look like a code.
 *   word -> word where its column's list holds it, else codeOf(column, word)
 * Units: none. Holds: any table; keys stay as they are. Source: common practice, no source. Example: ward "Ash" leaves
 * as "W-3f0c".
 */
export function withHouseWordsCoded(
  table: AuditTable,
  codeOf: CodeOf,
): { readonly table: AuditTable; readonly words: readonly HouseWord[] } {
  const words = new Map<string, HouseWord>();
  const coded = (column: string, word: string): string => {
    if (OURS[column]?.has(word)) return word;
    const place = JSON.stringify([column, word]);
    const code = words.get(place)?.code ?? codeOf(column, word);
    words.set(place, { column, code, word, rows: (words.get(place)?.rows ?? 0) + 1 });
    return code;
  };
  // a code takes the place of a choice where the table was made by other hands than the reader's
  const one = <Word extends string>(column: string, value: Maybe<Word>): Maybe<Word> =>
    isMissing(value) ? value : (coded(column, value) as Word);
  const many = (column: string, value: Maybe<readonly string[]>): Maybe<readonly string[]> =>
    isMissing(value) ? value : value.map((word) => coded(column, word));
  const lineOf = (row: LineRow): LineRow => ({
    ...row,
    end: row.end.kind === "removed" ? { ...row.end, reason: one("end_reason", row.end.reason) } : row.end,
    side: one("side", row.side),
    vein: one("vein", row.vein),
    ward: one("ward", row.ward),
    setting: one("setting", row.setting),
    diagnosis: one("diagnosis", row.diagnosis),
    indication: one("indication", row.indication),
    tipMethod: one("tip_method", row.tipMethod),
    tipPlace: one("tip_place", row.tipPlace),
    overdueCare: many("overdue_care", row.overdueCare),
    overrides: many("overrides", row.overrides),
    ...(row.checks && {
      checks: {
        ...row.checks,
        timeKnownTo: one("time_known_to", row.checks.timeKnownTo),
        writtenAfter: many("written_after", row.checks.writtenAfter),
      },
    }),
  });
  return {
    table: {
      asOf: table.asOf,
      lines: table.lines.map(lineOf),
      referrals: table.referrals.map((row) => ({
        ...row,
        ward: one("ward", row.ward),
        instead: one("instead", row.instead),
      })),
      ...(table.wardMonths && {
        wardMonths: table.wardMonths.map((row) => ({ ...row, ward: coded("ward", row.ward) })),
      }),
    },
    words: [...words.values()].sort((a, b) => order(a.column, b.column) || order(a.code, b.code)),
  };
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
