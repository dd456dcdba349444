import { MISSING_KINDS } from "../../core/missing/index.ts";
import { LINE_COLUMNS, type LineColumn } from "../line/index.ts";
import type { HouseWord } from "./house-words.ts";

/** A field of a Frictionless table schema. */
export interface SchemaField {
  readonly name: string;
  readonly type: "string" | "number" | "integer" | "boolean";
  readonly description: string;
  readonly trueValues?: readonly string[];
  readonly falseValues?: readonly string[];
  readonly constraints?: Readonly<Record<string, unknown>>;
  /** Codes in this column that stand for words of the house, which are not told. */
  readonly houseCodes?: readonly string[];
}

const TYPES: Readonly<Record<LineColumn["kind"], SchemaField["type"]>> = {
  key: "string",
  text: "string",
  moment: "string",
  choice: "string",
  list: "string",
  events: "string",
  number: "number",
  whole: "integer",
  "yes-no": "boolean",
};

/**
 * The data dictionary of the line table as a Frictionless table schema: types, units in the names, what each column
 * means, the words that stand for a missing value, and of an export the codes that stand for words of the house.
 * Source: Frictionless Standards, Table Schema 1.0 (from memory).
 */
export function lineTableSchema(words: readonly HouseWord[] = []): {
  readonly fields: readonly SchemaField[];
  readonly missingValues: readonly string[];
  readonly primaryKey: string;
} {
  return {
    fields: LINE_COLUMNS.map((column) => fieldOf(column, codesIn(words, column))),
    missingValues: ["", ...MISSING_KINDS],
    primaryKey: "line_key",
  };
}

const codesIn = (words: readonly HouseWord[], { name }: LineColumn): readonly string[] =>
  words.filter(({ column }) => column === name).map(({ code }) => code);

function fieldOf(
  { name, kind, options, least, most, must, what }: LineColumn,
  houseCodes: readonly string[],
): SchemaField {
  const constraints = {
    ...(must ? { required: true } : {}),
    ...(kind === "choice" && options ? { enum: [...options, ...houseCodes] } : {}),
    ...(least === undefined ? {} : { minimum: least }),
    ...(most === undefined ? {} : { maximum: most }),
  };
  return {
    name,
    type: TYPES[kind],
    description: what,
    ...(kind === "yes-no" ? { trueValues: ["yes"], falseValues: ["no"] } : {}),
    ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
    ...(houseCodes.length > 0 ? { houseCodes } : {}),
  };
}
