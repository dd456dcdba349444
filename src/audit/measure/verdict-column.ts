import type { CountLimits } from "../../policy/index.ts";
import { isAbsent, isRemoved, isUnknownEnd, type NumberField, type PackedFacts } from "../packed/index.ts";
import { ratioAgrees } from "../quality/index.ts";
import { thirdOf, type LineTest } from "./line-test.ts";
import type { LineRow } from "../line/index.ts";

/** Answers of a test by line. */
export const NO = 0;
export const YES = 1;
export const NOT_KNOWN_YET = 2;

const PERCENT = 100;
const HANDED_ON = 1;

type Answer = (line: number) => number;
type Scan = (facts: PackedFacts, limits: CountLimits) => Answer;

const number =
  (name: NumberField, holds: (value: number, limits: CountLimits) => boolean): Scan =>
  ({ lines }, limits) => {
    const column = lines.numbers[name];
    return (line) => {
      const value = column[line] as number;
      return isAbsent(value) ? NOT_KNOWN_YET : holds(value, limits) ? YES : NO;
    };
  };
const isThere =
  (codes: (facts: PackedFacts) => Int32Array): Scan =>
  (facts) => {
    const column = codes(facts);
    return (line) => ((column[line] as number) >= 0 ? YES : NO);
  };
const numberIsThere =
  (name: NumberField): Scan =>
  ({ lines }) => {
    const column = lines.numbers[name];
    return (line) => (isAbsent(column[line] as number) ? NO : YES);
  };
/** Of each word or list once; a line then looks its own up. */
const coded =
  <Word>(
    of: (facts: PackedFacts) => { readonly codes: Int32Array; readonly values: readonly Word[] },
    holds: (word: Word, limits: CountLimits) => boolean,
  ): Scan =>
  (facts, limits) => {
    const { codes, values } = of(facts);
    const answers = values.map((value) => (holds(value, limits) ? YES : NO));
    return (line) => answers[codes[line] as number] ?? NOT_KNOWN_YET;
  };

/** The tests of a line as scans over columns: each answers as its twin in `line-test.ts`, which a test holds it to. */
const SCANS: Readonly<Record<LineTest, Scan>> = {
  all: () => () => YES,
  "first attempt": number("attempts", (attempts) => attempts === 1),
  "one lumen": number("lumens", (lumens) => lumens === 1),
  "ratio within the upper edge": (facts, limits) => {
    const edge = limits.ratioEdgesPercent.at(-1) as number;
    return (line) => {
      const ratio = facts.ratio[line] as number;
      if (isAbsent(ratio) || !ratioAgrees(facts, line, limits)) return NOT_KNOWN_YET;
      return ratio * PERCENT <= edge ? YES : NO;
    };
  },
  "middle third": number(
    "positionShare",
    (share) => !["lower third", "upper third"].includes(thirdOf({ positionShare: share } as LineRow) as string),
  ),
  "tip well placed": coded(
    ({ lines }) => ({ codes: lines.words.tipPlace.codes, values: lines.words.tipPlace.words }),
    (place, { goodTipPlaces }) => goodTipPlaces.includes(place),
  ),
  "short stay":
    ({ dwellDays }, { shortStayDays }) =>
    (line) => {
      const days = dwellDays[line] as number;
      return Number.isNaN(days) ? NOT_KNOWN_YET : days <= shortStayDays ? YES : NO;
    },
  "filtration low": number("eGfr", (eGfr, { lowFiltration }) => eGfr < lowFiltration),
  "vein diameter known": numberIsThere("veinDiameterMm"),
  "lot known": isThere(({ lines }) => lines.words.lot.codes),
  "tip known": isThere(({ lines }) => lines.words.tipPlace.codes),
  "attempts known": numberIsThere("attempts"),
  "reason known":
    ({ lines }) =>
    (line) =>
      isRemoved(lines, line) && (lines.endReason.codes[line] as number) >= 0 ? YES : NO,
  "end not known":
    ({ lines }) =>
    (line) =>
      isUnknownEnd(lines, line) ? YES : NO,
  "handed on":
    ({ lines }) =>
    (line) =>
      lines.endKind[line] === HANDED_ON ? YES : NO,
  "care overdue": coded(
    ({ lines }) => ({ codes: lines.lists.overdueCare.codes, values: lines.lists.overdueCare.lists }),
    (items) => items.length > 0,
  ),
  "no owner":
    ({ lines }) =>
    (line) => {
      const owned = lines.owned[line] as number;
      return owned < 0 ? NOT_KNOWN_YET : owned === 1 ? NO : YES;
    },
  "a stop was passed": coded(
    ({ lines }) => ({ codes: lines.lists.overrides.codes, values: lines.lists.overrides.lists }),
    (codes) => codes.length > 0,
  ),
};

const COLUMNS = new WeakMap<
  PackedFacts,
  { readonly limits: CountLimits; readonly columns: Map<LineTest, Uint8Array> }
>();

/** The answer of a test for every line; worked out once for a table under the same limits. */
export function verdictColumn(test: LineTest, facts: PackedFacts, limits: CountLimits): Uint8Array {
  let kept = COLUMNS.get(facts);
  if (kept?.limits !== limits) {
    kept = { limits, columns: new Map() };
    COLUMNS.set(facts, kept);
  }
  const known = kept.columns.get(test);
  if (known) return known;
  const answer = SCANS[test](facts, limits);
  const column = new Uint8Array(facts.lines.count);
  for (let line = 0; line < column.length; line += 1) column[line] = answer(line);
  kept.columns.set(test, column);
  return column;
}
