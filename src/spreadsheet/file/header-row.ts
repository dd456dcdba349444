import { FIELD_NAMES, headerFit } from "../match/field.ts";
import type { SheetRow } from "./sheet-file.ts";

const ROWS_LOOKED_AT = 20;

/** The first row whose cells fit the most known headers; a title above the table has one cell and fits few. */
export function headerRowOf(sample: readonly SheetRow[]): number {
  let best = {
    row: sample.find(({ cells }) => cells.filter((cell) => cell.trim() !== "").length > 1)?.row ?? 1,
    fits: 0,
  };
  for (const { row, cells } of sample.slice(0, ROWS_LOOKED_AT)) {
    const fits = cells.filter((cell) => FIELD_NAMES.some((name) => headerFit(cell, name) > 0.5)).length;
    if (fits > best.fits) best = { row, fits };
  }
  return best.row;
}

/** One name for each column, so that two of one name stay two. */
export function namesOfColumns(cells: readonly string[]): readonly string[] {
  const seen = new Map<string, number>();
  return cells.map((cell, index) => {
    const name = cell.trim() === "" ? `column ${index + 1}` : cell.trim().slice(0, 80);
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} #${times}`;
  });
}

/** A header copied into the sheet: a page pasted on brings its own. */
export const isHeaderAgain = (cells: readonly string[], headers: readonly string[]): boolean =>
  cells.some((cell) => cell.trim() !== "") &&
  cells.every((cell, at) => cell.trim().toLowerCase() === (headers[at] ?? "").trim().toLowerCase());
