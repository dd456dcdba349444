import type { Sheet } from "../file/index.ts";
import { rowsToCarry } from "./carried-number.ts";
import { fieldOf, isFieldName, UNITS, type FieldName, type Unit } from "./field.ts";
import { readWardNames, wardQuestions, type WardName } from "./ward-name.ts";
import { DATE_ORDERS, readDate, type DateStyle } from "./date-text.ts";

/** What one column is. A "left out" column is not read; "not said" must be answered first. */
export interface ColumnMatch extends DateStyle {
  readonly header: string;
  readonly field: FieldName | "left out";
  readonly unit?: Unit;
  /** Of the patient's number: what a row without one is, where a number stands above it. Absent, it is left out. */
  readonly withoutNumber?: WithoutNumber;
}

export const WITHOUT_NUMBER = ["the number above", "left out"] as const;
export type WithoutNumber = (typeof WITHOUT_NUMBER)[number];

/** How one house writes its spreadsheet: plain data, to be confirmed by a person, kept, and used again next month. */
export interface Matching {
  readonly format: "veinwright-matching-1";
  readonly columns: readonly ColumnMatch[];
  /** Spellings that a person said are one ward, and its name. */
  readonly wards?: readonly WardName[];
  /** Whose word it is; empty while nobody has confirmed. */
  readonly confirmedBy: string;
}

export type MatchingQuestion =
  | { readonly code: "not confirmed" | "patient not matched" | "placed not matched" }
  | {
      readonly code:
        | "unit not said"
        | "order not said"
        | "century not said"
        | "system not said"
        | "header not in file"
        | "header not matched"
        | "field twice"
        | "number above not said"
        | "ward numbers differ"
        | "ward spelling twice";
      readonly header: string;
    };

/** What stands between a matching and the reading of a file, the first rows looked at for what dates leave open. */
export function matchingQuestions(
  matching: Matching,
  sheet: Pick<Sheet, "headers" | "sample">,
): readonly MatchingQuestion[] {
  const questions: MatchingQuestion[] = [];
  const fields = new Set<string>();
  for (const column of matching.columns) {
    const { header, field, unit } = column;
    if (field === "left out") continue;
    if (!sheet.headers.includes(header)) questions.push({ code: "header not in file", header });
    if (fields.has(field)) questions.push({ code: "field twice", header });
    fields.add(field);
    const at = sheet.headers.indexOf(header);
    if (fieldOf(field).kind === "date" && at >= 0) {
      const kinds = new Set(sheet.sample.map(({ cells }) => readDate(cells[at] ?? "", column).kind));
      for (const code of ["order not said", "century not said", "system not said"] as const)
        if (kinds.has(code)) questions.push({ code, header });
    }
    if (field === "patient" && column.withoutNumber === undefined && rowsToCarry(matching, sheet) > 0)
      questions.push({ code: "number above not said", header });
    if (fieldOf(field).units && !unit) questions.push({ code: "unit not said", header });
  }
  questions.push(...wardQuestions(matching.wards));
  const matched = new Set(matching.columns.map(({ header }) => header));
  for (const header of sheet.headers) if (!matched.has(header)) questions.push({ code: "header not matched", header });
  if (!fields.has("patient")) questions.push({ code: "patient not matched" });
  if (!fields.has("placedOn")) questions.push({ code: "placed not matched" });
  if (matching.confirmedBy.trim() === "") questions.push({ code: "not confirmed" });
  return questions;
}

/** Reads a kept matching; undefined when the text is none. Only the fields named here are taken. */
export function readMatching(text: string): Matching | undefined {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return undefined;
  }
  const record = (value: unknown): Readonly<Record<string, unknown>> | undefined =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : undefined;
  const top = record(data);
  if (top?.["format"] !== "veinwright-matching-1" || !Array.isArray(top["columns"])) return undefined;
  const columns: ColumnMatch[] = [];
  for (const one of top["columns"] as readonly unknown[]) {
    const column = record(one);
    const header = column?.["header"];
    const field = column?.["field"];
    if (!column || typeof header !== "string" || typeof field !== "string") return undefined;
    if (field !== "left out" && !isFieldName(field)) return undefined;
    const unit = UNITS.find((known) => known === column["unit"]);
    const order = DATE_ORDERS.find((known) => known === column["order"]);
    const upTo = column["twoDigitUpTo"];
    const system = column["serialSystem"];
    const withoutNumber = WITHOUT_NUMBER.find((known) => known === column["withoutNumber"]);
    columns.push({
      header,
      field,
      ...(unit ? { unit } : {}),
      ...(withoutNumber ? { withoutNumber } : {}),
      ...(order ? { order } : {}),
      ...(typeof upTo === "number" ? { twoDigitUpTo: upTo } : {}),
      ...(system === 1900 || system === 1904 ? { serialSystem: system } : {}),
    });
  }
  const by = top["confirmedBy"];
  const wards = readWardNames(top["wards"]);
  if (wards === undefined) return undefined;
  const named = wards.length > 0 ? { wards } : {};
  return { format: "veinwright-matching-1", columns, ...named, confirmedBy: typeof by === "string" ? by : "" };
}
