import { ROW_EVENTS, type LineRow, type RowEventKind } from "../line/index.ts";
import type { PackedLines } from "./packed-lines.ts";

/** The bit of a kind of event; there are seven, and a byte holds eight. */
export const kindBit = (kind: RowEventKind): number => 1 << ROW_EVENTS.indexOf(kind);

/** The events without a day of every row. */
export function packUndated(rows: readonly LineRow[]): Uint8Array | undefined {
  if (rows.every(({ undated }) => undated === undefined)) return undefined;
  return Uint8Array.from(rows, ({ undated = [] }) => undated.reduce((bits, kind) => bits | kindBit(kind), 0));
}

/** The kinds of event of a line whose day is not known. */
export function undatedAt({ undated }: PackedLines, line: number): readonly RowEventKind[] {
  const bits = undated?.[line] ?? 0;
  return bits === 0 ? [] : ROW_EVENTS.filter((kind) => (bits & kindBit(kind)) !== 0);
}
