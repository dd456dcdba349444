import { consequenceOf, standingOf, type RowFault } from "./row-fault.ts";

/**
 * A cell of an export: quoted where it must be, and with a leading apostrophe where a spreadsheet program would work it out.
 * Source: RFC 4180 for the quotes; the apostrophe is common practice, no source.
 */
export function exportCell(text: string): string {
  const harmless = /^[\s\uFEFF]*[=+\-@\t\r]/.test(text) && !/^-?\d+([.,]\d+)?$/.test(text) ? `'${text}` : text;
  return /[",\n\r;]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

export const FAULT_COLUMNS = [
  "row",
  "column",
  "what",
  "found",
  "held against",
  "what becomes of it",
  "severity",
  "rule in counting",
  "source",
] as const;

/** Faults as lines of CSV, without the header; the words of the rule come from the caller. */
export const faultLines = (faults: readonly RowFault[], words: (fault: RowFault) => string): string =>
  faults
    .map((fault) => {
      const { severity, rule = "", source } = standingOf(fault.code);
      const told = [String(fault.row), fault.column, words(fault), fault.found, fault.against];
      return [...told, consequenceOf(fault.code), severity, rule, source].map(exportCell).join(",");
    })
    .map((line) => `${line}\r\n`)
    .join("");
