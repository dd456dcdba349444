import { readFileSync } from "node:fs";

export type Row = Readonly<Record<string, string>>;

/** Rows of one of the vendored files; numbers stay text until `column` reads them. */
export function dataset(name: string): Row[] {
  const [head, ...lines] = readFileSync(new URL(`${name}.csv`, import.meta.url), "utf8")
    .trim()
    .split(/\r?\n/);
  const cells = (line: string) => line.split(",").map((cell) => cell.replaceAll('"', ""));
  const names = cells(head as string);
  return lines.map((line) => Object.fromEntries(cells(line).map((cell, k) => [names[k] as string, cell])));
}

/** One column as numbers; NA becomes NaN. */
export const column = (rows: readonly Row[], name: string): number[] => rows.map((row) => Number(row[name]));

/** Rows with no NA in the columns named. */
export const complete = (rows: readonly Row[], names: readonly string[]): Row[] =>
  rows.filter((row) => names.every((name) => row[name] !== "NA"));

/** 1 where the cell equals the value, else 0. */
export const indicator = (rows: readonly Row[], name: string, value: string): number[] =>
  rows.map((row) => (row[name] === value ? 1 : 0));
