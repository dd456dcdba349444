import Papa from "papaparse";
import { TISSUE_CLASSES, type Infusate } from "../core/infusate/index.ts";
import { missing, type Maybe } from "../core/missing/index.ts";
import { milliosmolePerLitre } from "../core/quantity/index.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { readNumber } from "./number-text.ts";
import type { Faults } from "./read-json.ts";

/** The columns of a hospital's own drug list; the first row names them, in any order. */
const INFUSATE_COLUMNS = [
  "name",
  "osmolarity",
  "ph",
  "class",
  "disputed",
  "against cancer",
  "nutrition",
  "source",
] as const;

export type InfusateListReading = { readonly kind: "list"; readonly infusates: readonly Infusate[] } | Faults;

const LARGEST_FILE = 1_000_000;

/**
 * Reads a hospital's drug list from CSV, with comma or semicolon and with decimal comma or point. Every fault is
 * reported with its row; while there is one, nothing of the list is taken.
 * Format: RFC 4180 with a header row. Example row: ceftriaxone,360,6.6,neither,no,no,no,our pharmacy
 */
export function readInfusateCsv(text: string): InfusateListReading {
  const faults: Fault[] = [];
  const fault = (path: string, code: Fault["code"], found: unknown, rule: string) =>
    faults.push({ path, code, found: shown(found), rule });
  if (text.length > LARGEST_FILE) {
    fault("", "too-large", `${text.length} characters`, "at most 1 000 000 characters");
    return { kind: "faults", faults };
  }
  const { data, meta, errors } = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ""), {
    header: true,
    skipEmptyLines: "greedy",
    transformHeader: (name) => name.trim().toLowerCase(),
  });
  for (const { row, message, type } of errors)
    if (type !== "Delimiter")
      fault(`row ${(row ?? 0) + 2}`, "wrong-type", message, "as many fields as the first row names");
  const columns = meta.fields ?? [];
  for (const renamed of Object.values((meta as { renamedHeaders?: Record<string, string> }).renamedHeaders ?? {}))
    fault(`row 1, column "${renamed}"`, "twice", renamed, "each column once");
  for (const column of ["name", "class"])
    if (!columns.includes(column))
      fault(`row 1, column "${column}"`, "missing-field", column, `the columns ${INFUSATE_COLUMNS.join(", ")}`);
  for (const column of columns)
    if (!INFUSATE_COLUMNS.some((known) => known === column))
      fault(`row 1, column "${shown(column)}"`, "unknown-field", column, `the columns ${INFUSATE_COLUMNS.join(", ")}`);
  if (data.length === 0)
    fault(
      columns.length === 0 ? "row 1" : "",
      columns.length === 0 ? "missing-field" : "header-alone",
      columns.length === 0 ? "no row" : shown(columns.join(", ")),
      "one row for each drug",
    );
  if (faults.length > 0) return { kind: "faults", faults };

  const seen = new Map<string, number>();
  const infusates = data.map((row, index): Infusate => {
    const line = index + 2;
    const at = (column: string) => `row ${line}, ${column}`;
    const cell = (column: string) => (row[column] ?? "").trim();
    const name = cell("name");
    const key = name.toLowerCase();
    if (name === "") fault(at("name"), "missing-field", "", "a name for each drug");
    else if (seen.has(key)) fault(at("name"), "twice", name, `one row for one drug (see row ${seen.get(key)})`);
    seen.set(key, line);
    faults.push(...hiddenSigns(Object.values(row), `row ${line}`));
    const number = (column: string, least: number, most: number): Maybe<number> => {
      const reading = readNumber(cell(column));
      if (reading.kind === "empty" || reading.kind === "not known") return missing("not known");
      if (reading.kind === "thousands separator")
        fault(at(column), "thousands-separator", cell(column), "one decimal comma or point, no thousands mark");
      else if (reading.kind === "not a number") fault(at(column), "wrong-type", cell(column), "a number");
      else if (reading.value < least || reading.value > most)
        fault(at(column), "out-of-range", reading.value, `${least} to ${most}`);
      else return reading.value;
      return missing("not known");
    };
    const yes = (column: string): boolean => {
      const word = cell(column).toLowerCase();
      if (!["", "yes", "no"].includes(word)) fault(at(column), "not-in-list", word, "one of: yes, no");
      return word === "yes";
    };
    const word = cell("class").toLowerCase();
    const tissueClass = TISSUE_CLASSES.find((one) => one === word);
    if (!tissueClass && word !== "") fault(at("class"), "not-in-list", word, `one of: ${TISSUE_CLASSES.join(", ")}`);
    const osmolarity = number("osmolarity", 0, 5000);
    return {
      id: key,
      name,
      osmolarity: typeof osmolarity === "number" ? milliosmolePerLitre(osmolarity) : osmolarity,
      ph: number("ph", 0, 14),
      tissueClass: tissueClass ?? missing("not known"),
      classDisputed: yes("disputed"),
      againstCancer: yes("against cancer"),
      nutrition: yes("nutrition"),
      source: cell("source") || "no source",
      howKnown: "local",
    };
  });
  return faults.length > 0 ? { kind: "faults", faults } : { kind: "list", infusates };
}
