/** Why a whole file is not read. Words are in src/language; the found value is shortened and never evaluated. */
export const REFUSAL_CODES = [
  "empty-file",
  "too-large",
  "not-a-table",
  "old-workbook",
  "wrong-encoding",
  "cell-too-large",
  "quote-never-closed",
  "too-many-columns",
  "zip-damaged",
  "zip-bomb",
  "zip-too-many-parts",
  "zip-nested",
  "zip-encrypted",
  "macro-workbook",
  "external-links",
  "not-a-workbook",
  "no-such-sheet",
  "no-rows",
  "empty-sheets",
  "cancelled",
  "changed-since",
  "workbook-too-large",
  "binary-workbook",
  "open-document",
  "markup-file",
  "definitions-inside",
  "out-of-order",
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

export interface Refusal {
  readonly code: RefusalCode;
  readonly found: string;
  /** The row as a spreadsheet program counts it, where there is one. */
  readonly row?: number;
}

/** Carries a refusal up to the edge of the room; it never leaves it. */
export class Refused extends Error {
  readonly refusal: Refusal;

  constructor(code: RefusalCode, found: string | number = "", row?: number) {
    super(code);
    const text = String(found);
    this.refusal = {
      code,
      found: text.length > 60 ? `${text.slice(0, 57)}...` : text,
      ...(row === undefined ? {} : { row }),
    };
  }
}
