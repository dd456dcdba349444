import Papa from "papaparse";
import type { LineColumn } from "../audit/index.ts";
import { shown, type Fault } from "./fault.ts";

/** No table here has a tenth of it: a file with more is something else, and would be told column by column. */
const MOST_COLUMNS = 500;

/**
 * The names and the rows of a CSV whose columns are known: in any order, each once, and with every one that must be there.
 * Undefined while anything of it is wrong; every fault is told. Format: RFC 4180 with a header row.
 */
export function readCsvTable(
  text: string,
  columns: readonly LineColumn[],
  asked: { readonly largest: number; readonly largestWords: string; readonly eachRow: string },
  fault: (path: string, code: Fault["code"], found: unknown, rule: string) => void,
): { readonly names: readonly string[]; readonly body: readonly (readonly string[])[] } | undefined {
  if (text.length > asked.largest) {
    fault("", "too-large", `${text.length} characters`, `at most ${asked.largestWords} characters`);
    return undefined;
  }
  let sound = true;
  const tell: typeof fault = (...told) => {
    sound = false;
    fault(...told);
  };
  const { data, errors } = Papa.parse<string[]>(text.replace(/^\uFEFF/, ""), { skipEmptyLines: "greedy" });
  for (const { row, message, type } of errors)
    if (type !== "Delimiter") tell(`row ${(row ?? 0) + 1}`, "wrong-type", message, "fields as RFC 4180 has them");
  const [head = [], ...body] = data;
  if (head.length > MOST_COLUMNS) {
    fault("row 1", "too-large", `${head.length} columns`, `at most ${MOST_COLUMNS} columns`);
    return undefined;
  }
  // what a decoder puts in the place of letters it cannot read: two wards that differ in one such letter would be one
  for (const [index, row] of data.entries())
    if (row.some((cell) => cell.includes("\uFFFD")))
      tell(`row ${index + 1}`, "not-in-list", "letters that are not UTF-8", "a file saved as UTF-8");
  const names = head.map((name) => name.trim().toLowerCase());
  const rule = `the columns ${columns.map(({ name }) => name).join(", ")}`;
  const known = new Set(columns.map(({ name }) => name));
  const seen = new Set<string>();
  for (const name of names) {
    if (!known.has(name)) tell(`row 1, column "${shown(name)}"`, "unknown-field", name, rule);
    if (seen.has(name)) tell(`row 1, column "${shown(name)}"`, "twice", name, "each column once");
    seen.add(name);
  }
  for (const { name, must } of columns)
    if (must && !seen.has(name)) tell(`row 1, column "${name}"`, "missing-field", name, rule);
  // no row is nothing known, and not that there is nothing
  if (body.length === 0 && names.some((name) => name !== "")) tell("", "header-alone", names.join(", "), asked.eachRow);
  else if (body.length === 0) tell("row 1", "missing-field", "no row", asked.eachRow);
  return sound ? { names, body } : undefined;
}
