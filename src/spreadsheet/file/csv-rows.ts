import Papa from "papaparse";
import { OTHER_ENCODING } from "./decode-lines.ts";
import { decoderOf, type Encoding } from "./encoding.ts";
import { lineDecoderOf } from "./line-decoder.ts";
import { FILE_LIMITS } from "./limits.ts";
import { Refused } from "./refusal.ts";
import type { CancelSign, RowBatch, SheetFile, SheetRow } from "./sheet-file.ts";

export const DELIMITERS = [",", ";", "\t", "|"] as const;
export type Delimiter = (typeof DELIMITERS)[number];

interface Parsed {
  readonly data: readonly (readonly string[])[];
  readonly errors: readonly { readonly row?: number; readonly type: string }[];
  readonly meta: { readonly cursor: number };
}

const parse = (text: string, delimiter: string, ignoreLastRow: boolean): Parsed =>
  new Papa.Parser({ delimiter, newline: "\n" }).parse(text, 0, ignoreLastRow) as Parsed;

/** One kind of line end, so that a file put together from two systems reads as one. */
const oneLineEnd = (text: string): string => (text.includes("\r") ? text.replaceAll(/\r\n?/g, "\n") : text);

/**
 * The mark between cells: the one that cuts most of the first rows into the same number of cells, at least two.
 * Undefined when none does; a table of one column is no table of lines.
 */
export function detectDelimiter(head: string): Delimiter | undefined {
  const text = oneLineEnd(head);
  let best: { readonly mark: Delimiter; readonly score: number } | undefined;
  for (const mark of DELIMITERS) {
    const rows = parse(text, mark, true)
      .data.slice(0, 60)
      .filter((row) => row.some((cell) => cell.trim() !== ""));
    const counts = new Map<number, number>();
    for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
    const [width = 0, agreeing = 0] = [...counts].filter(([cells]) => cells > 1).sort((a, b) => b[1] - a[1])[0] ?? [];
    const score = rows.length === 0 ? 0 : (agreeing / rows.length) * Math.min(width, 40);
    if (score > (best?.score ?? 0)) best = { mark, score };
  }
  return best?.mark;
}

/** Reads rows piece by piece; what is held at any time is one piece and one unfinished row. */
export async function* csvRows(
  file: SheetFile,
  {
    encoding,
    delimiter,
    byLine,
    decided,
  }: {
    readonly encoding: Encoding;
    readonly delimiter: string;
    /** Lines may be in two encodings; not where a person named one. */
    readonly byLine: boolean;
    /** The head of the file has shown which is its own. */
    readonly decided: boolean;
  },
  cancel: CancelSign = { aborted: false },
): AsyncGenerator<RowBatch> {
  const decoder = byLine ? lineDecoderOf(encoding, decided) : decoderOf(encoding);
  let held = "";
  let row = 0;
  let bytesRead = 0;
  let first = true;
  const take = (text: string, last: boolean): SheetRow[] => {
    held += text;
    // a line end may be cut in two by the end of a piece
    const keepBack = !last && held.endsWith("\r") ? "\r" : "";
    const whole = oneLineEnd(keepBack ? held.slice(0, -1) : held);
    const { data, errors, meta } = parse(whole, delimiter, !last);
    const bad = new Set(errors.filter(({ type }) => type === "Quotes").map((error) => error.row ?? -1));
    const rest = last ? "" : whole.slice(meta.cursor);
    held = rest + keepBack;
    // a quote that never closes swallows the rest of the file; it is refused while it is still small
    if (held.length > FILE_LIMITS.rowCharacters)
      throw new Refused(
        rest.includes('"') ? "quote-never-closed" : "cell-too-large",
        `${held.length} characters`,
        row + 1,
      );
    const rows: SheetRow[] = [];
    for (const [index, cells] of data.entries()) {
      row += 1;
      if (last && index === data.length - 1 && cells.length === 1 && cells[0] === "") continue;
      if (cells.length > FILE_LIMITS.columns) throw new Refused("too-many-columns", cells.length, row);
      for (const cell of cells)
        if (cell.length > FILE_LIMITS.cellCharacters)
          throw new Refused("cell-too-large", `${cell.length} characters`, row);
      rows.push({ row, ...withoutMark(cells), ...(bad.has(index) ? { badQuotes: true as const } : {}) });
    }
    return rows;
  };
  for await (const piece of file.open()) {
    if (cancel.aborted) throw new Refused("cancelled", "", row);
    bytesRead += piece.length;
    if (bytesRead > FILE_LIMITS.csvBytes) throw new Refused("too-large", `${bytesRead} bytes`);
    const text = decoder.decode(piece);
    const rows = take(first ? text.replace(/^\uFEFF/, "") : text, false);
    if (text !== "") first = false;
    if (rows.length > 0) yield { rows, bytesRead, bytesInAll: file.sizeBytes };
  }
  const rows = take(decoder.end(), true);
  yield { rows, bytesRead, bytesInAll: file.sizeBytes };
}

/** The cells without the mark of another encoding, and where it stood. */
function withoutMark(cells: readonly string[]): Pick<SheetRow, "cells" | "otherEncodingAt"> {
  if (!cells.some((cell) => cell.includes(OTHER_ENCODING))) return { cells };
  return {
    cells: cells.map((cell) => cell.replaceAll(OTHER_ENCODING, "")),
    otherEncodingAt: cells.flatMap((cell, at) => (cell.includes(OTHER_ENCODING) ? [at] : [])),
  };
}

/** The whole rows of a piece of text from the start of a file. */
export const parseSample = (text: string, delimiter: Delimiter): readonly (readonly string[])[] =>
  parse(oneLineEnd(text), delimiter, true).data;
