import { MISSING_KINDS, isMissing, missing, type Maybe, type Missing } from "../../core/missing/index.ts";
import { dayNumber, civilDateFromDayNumber } from "../../core/calendar/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { minute } from "../../core/quantity/index.ts";
import type { WardMonth } from "../line/index.ts";
import type { PackedChecks } from "./packed-checks.ts";
import type { PackedReferrals } from "./packed-referrals.ts";

/** Fields of a row that are numbers, words and lists of words; every one may be absent in four ways. */
export const NUMBER_FIELDS = [
  "sizeFr",
  "lumens",
  "veinDiameterMm",
  "writtenRatio",
  "positionShare",
  "attempts",
  "ageYears",
  "eGfr",
  "idleDays",
] as const;
export const WORD_FIELDS = [
  "side",
  "vein",
  "inserter",
  "ward",
  "setting",
  "diagnosis",
  "indication",
  "tipMethod",
  "tipPlace",
  "lot",
  "catheter",
] as const;
export const LIST_FIELDS = ["overdueCare", "overrides"] as const;
export const END_KINDS = ["removed", "handed on", "in place", "unknown"] as const;

export type NumberField = (typeof NUMBER_FIELDS)[number];
export type WordField = (typeof WORD_FIELDS)[number];
export type ListField = (typeof LIST_FIELDS)[number];

/** Words as places in a list of words; below zero the kind of absence. */
export interface PackedWords {
  readonly codes: Int32Array;
  readonly words: readonly string[];
}

/** Moments: minutes of UTC with the offset of their clock, or a day number where only a date was written. */
export interface PackedMoments {
  readonly at: Float64Array;
  readonly offset: Int16Array;
}

/**
 * The line table as typed columns: what every figure reads, without an object for each line. Nothing is lost: `rowAt`
 * gives back the very row. A million lines take some 300 MB; as rows they would take several times that.
 */
export interface PackedLines {
  readonly asOf: Moment;
  readonly count: number;
  readonly keyAt: (line: number) => string;
  /** Whether no two lines can have one key, as the record itself makes sure of. */
  readonly keysDiffer: boolean;
  /** The same person, the same number. */
  readonly patient: Int32Array;
  readonly patientAt: (line: number) => string;
  readonly placed: PackedMoments;
  readonly knownFrom: PackedMoments;
  readonly end: PackedMoments;
  readonly endKind: Uint8Array;
  readonly endReason: PackedWords;
  readonly numbers: Readonly<Record<NumberField, Float64Array>>;
  readonly words: Readonly<Record<WordField, PackedWords>>;
  readonly lists: Readonly<
    Record<ListField, { readonly codes: Int32Array; readonly lists: readonly (readonly string[])[] }>
  >;
  /** 1 yes, 0 no, below zero the kind of absence. */
  readonly owned: Int8Array;
  /** The events of line i stand from `from[i]` up to, not with, `from[i + 1]`. */
  readonly events: {
    readonly from: Uint32Array;
    readonly kind: Uint8Array;
    readonly at: PackedMoments;
    readonly clinical: Int8Array;
    readonly surveillance: Int8Array;
    readonly pairedCulture: Int8Array;
    readonly mucosal: Int8Array;
    /** When a blocked line ran again. */
    readonly cleared: PackedMoments;
  };
  /** Of each line the kinds of its events without a day, a bit for each of `ROW_EVENTS`; undefined where no line has one. */
  readonly undated: Uint8Array | undefined;
  /** What only the rules of quality read; undefined where no row has any of it. */
  readonly checks: PackedChecks | undefined;
  readonly referrals: PackedReferrals;
  /** A few rows for each month; undefined where nobody counted one. */
  readonly wardMonths: readonly WardMonth[] | undefined;
}

/** An offset no clock has: there is no moment, or a date alone. */
export const NO_MOMENT = -32_768;
export const DATE_ALONE = 32_767;

/** Far below any number of a row: the four absences of a number. */
const ABSENT = -1e300;
export const isAbsent = (value: number): boolean => value < ABSENT / 2;
export const packedNumber = (value: Maybe<number>): number =>
  isMissing(value) ? ABSENT * (1 + MISSING_KINDS.indexOf(value.missing)) : value;
export const numberOf = (packed: number): Maybe<number> =>
  isAbsent(packed) ? absenceOf(-Math.round(packed / ABSENT)) : packed;

/** Absence of a code: -1 to -4. */
export const absentCode = ({ missing: kind }: Missing): number => -1 - MISSING_KINDS.indexOf(kind);
export const absenceOf = (code: number): Missing => missing(MISSING_KINDS[-1 - code] ?? "not known");

export const packedAnswer = (value: Maybe<boolean>): number => (isMissing(value) ? absentCode(value) : Number(value));
export const answerOf = (code: number): Maybe<boolean> => (code < 0 ? absenceOf(code) : code === 1);

export function packMoment(moments: PackedMoments, place: number, at: Moment | undefined): void {
  if (at === undefined) {
    moments.offset[place] = NO_MOMENT;
    return;
  }
  moments.at[place] = at.precision === "date" ? dayNumber(at.date) : at.utc;
  moments.offset[place] = at.precision === "date" ? DATE_ALONE : at.offset;
}

export function momentAt({ at, offset }: PackedMoments, place: number): Moment | undefined {
  const clock = offset[place] as number;
  if (clock === NO_MOMENT) return undefined;
  const value = at[place] as number;
  return clock === DATE_ALONE
    ? { precision: "date", date: civilDateFromDayNumber(value) }
    : { precision: "minute", utc: minute(value), offset: minute(clock) };
}

export const moments = (count: number): PackedMoments => ({
  at: new Float64Array(count),
  offset: new Int16Array(count),
});
