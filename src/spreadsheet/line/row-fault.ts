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

export const consequenceOf = (code: RowFaultCode): Consequence => ROW_FAULTS[code];
