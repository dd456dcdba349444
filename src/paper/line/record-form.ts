import { missingHeads, recordFormWords, sayField, sayOption } from "../../language/index.ts";
import { lineEvents, type Field, type LineView, type Recorded } from "../../register/index.ts";
import { saidValue, type PlacingField } from "./line-value.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import type { FormRow, Sheet } from "./sheet.ts";

const fields = Object.entries(lineEvents.LineInserted) as readonly (readonly [PlacingField, Field])[];

/** The downtime twin: the screen's fields in the screen's order and numbers, each with four boxes for why it is missing. */
export const recordForm = (input: PaperInput): Sheet =>
  framed("record form", input, [
    { kind: "soft", text: recordFormWords.how },
    {
      kind: "form",
      missing: missingHeads,
      rows: fields.map(([name, field], at) => formRow(input.line, name, field, at)),
    },
    { kind: "sign", items: recordFormWords.sign },
  ]);

function formRow(line: LineView, name: PlacingField, field: Field, at: number): FormRow {
  const recorded = line.said[name] as Recorded<unknown> | undefined;
  const known = recorded !== undefined && "value" in recorded;
  const { value, note } = saidValue(field, recorded);
  const options = optionsOf(field);
  return {
    number: at + 1,
    label: sayField(name),
    kind: options.length > 0 ? "boxes" : "rule",
    options,
    unit:
      field.kind === "number"
        ? field.unit
        : field.kind === "count"
          ? recordFormWords.number
          : field.kind === "date"
            ? recordFormWords.day
            : "",
    value: known && options.length === 0 ? value : "",
    ticked: known && options.length > 0 ? value.split(", ") : [],
    missing: recorded !== undefined && "missing" in recorded ? recorded.missing : "",
    note: known ? note : "",
  };
}

const optionsOf = (field: Field): readonly string[] =>
  field.kind === "choice" || field.kind === "choices"
    ? field.options.map(sayOption)
    : field.kind === "yes-no"
      ? ["yes", "no"]
      : [];
