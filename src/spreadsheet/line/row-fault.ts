import { QUALITY_RULES, type QualityCode, type Severity } from "../../audit/index.ts";
import type { FieldName } from "../match/index.ts";

/**
 * What becomes of the row.
 *   row left out    it cannot be a line, or is one that already stands
 *   value left out  the line stays, this value becomes "not known"
 *   asked           taken as written, for a person to look at
 */
export type Consequence = "row left out" | "value left out" | "asked";

export const ROW_FAULTS = {
  "no patient": "row left out",
  "no placed date": "row left out",
  "cells missing": "row left out",
  "cells too many": "row left out",
  "quotes do not pair": "row left out",
  "placed date unreadable": "row left out",
  "placed in the future": "row left out",
  "removed before placed": "row left out",
  "same line twice": "row left out",
  "header again": "row left out",
  "date unreadable": "value left out",
  "event without a day": "value left out",
  "date in the future": "value left out",
  "not a number": "value left out",
  "number of another kind": "value left out",
  "age impossible": "value left out",
  "born after placed": "value left out",
  "word not known": "value left out",
  "arm against vein": "value left out",
  "beyond the table": "value left out",
  "formula not worked out": "value left out",
  "looks like a formula": "asked",
  "formula in the file": "asked",
  "outside the usual": "asked",
  "long stay": "asked",
  "event before placing": "asked",
  "event after removal": "asked",
  "lines overlap": "asked",
  "same line, other values": "asked",
  "ratio against size": "asked",
  "near number": "asked",
  "number of two people": "asked",
  "check digit": "asked",
  "day and month": "asked",
  "size against kind": "asked",
  "another encoding": "asked",
  "hidden row": "asked",
  "merged cells": "asked",
  "number carried down": "asked",
  "event only in the reason": "asked",
  "size against lumens": "asked",
  "number in powers": "asked",
  "ward merged": "asked",
} as const satisfies Readonly<Record<string, Consequence>>;
export type RowFaultCode = keyof typeof ROW_FAULTS;

/** One thing wrong in one row: where, what was found, and the rule by its code. Words are in src/language. */
export interface RowFault {
  readonly row: number;
  readonly column: string;
  readonly field: FieldName | undefined;
  readonly code: RowFaultCode;
  readonly found: string;
  /** The limit, or the other row or value it is held against. */
  readonly against: string;
}

/** Rules that counting has too: what they do to the line there, if it is taken as it stands. */
const IN_COUNT = {
  "no placed date": "T3",
  "placed in the future": "T2",
  "removed before placed": "T1",
  "same line twice": "L2",
  "long stay": "T5",
  "event before placing": "E1",
  "event after removal": "E2",
  "event only in the reason": "E5",
  "ratio against size": "C1",
  "size against lumens": "C2",
} as const satisfies Partial<Record<RowFaultCode, QualityCode>>;

const OF_CONSEQUENCE: Readonly<Record<Consequence, Severity>> = {
  "row left out": "stop",
  "value left out": "hold",
  asked: "warn",
};

/** Where a rule comes from, where it is not this program's own habit. */
const SOURCES: Readonly<Partial<Record<RowFaultCode, string>>> = {
  "quotes do not pair": "RFC 4180",
  "near number": "Damerau 1964 (from memory)",
  "check digit": "NHS Data Dictionary, NHS NUMBER (from memory)",
  "day and month": "common practice; stays as Tukey 1977 (from memory)",
};

/** stop, hold or warn, the rule's name where counting has it, and its source. */
export function standingOf(code: RowFaultCode): {
  readonly severity: Severity;
  readonly rule: QualityCode | undefined;
  readonly source: string;
} {
  const rules: Readonly<Partial<Record<RowFaultCode, QualityCode>>> = IN_COUNT;
  const rule = rules[code];
  return {
    severity:
      rule === undefined || ROW_FAULTS[code] !== "asked" ? OF_CONSEQUENCE[ROW_FAULTS[code]] : QUALITY_RULES[rule],
    rule,
    source: SOURCES[code] ?? "common practice, no source",
  };
}

export const consequenceOf = (code: RowFaultCode): Consequence => ROW_FAULTS[code];
