import { MISSING_KINDS } from "../../core/missing/index.ts";
import { LINE_COLUMNS, type LineColumn } from "../line/index.ts";

/** A field of a Frictionless table schema. */
export interface SchemaField {
  readonly name: string;
  readonly type: "string" | "number" | "integer" | "boolean";
  readonly description: string;
  readonly trueValues?: readonly string[];
  readonly falseValues?: readonly string[];
  readonly constraints?: Readonly<Record<string, unknown>>;
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
 * means, and the words that stand for a missing value.
 * Source: Frictionless Standards, Table Schema 1.0 (from memory).
 */
export function lineTableSchema(): {
  readonly fields: readonly SchemaField[];
  readonly missingValues: readonly string[];
  readonly primaryKey: string;
} {
  return { fields: LINE_COLUMNS.map(fieldOf), missingValues: ["", ...MISSING_KINDS], primaryKey: "line_key" };
}

function fieldOf({ name, kind, options, least, most, must, what }: LineColumn): SchemaField {
  const constraints = {
    ...(must ? { required: true } : {}),
    ...(kind === "choice" && options ? { enum: options } : {}),
    ...(least === undefined ? {} : { minimum: least }),
    ...(most === undefined ? {} : { maximum: most }),
  };
  return {
    name,
    type: TYPES[kind],
    description: what,
    ...(kind === "yes-no" ? { trueValues: ["yes"], falseValues: ["no"] } : {}),
    ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
  };
}
