import { parseCivilDate } from "../../core/calendar/index.ts";
import { missingHeads, recordFormWords, sayField, sayIdentifiers, sayOption } from "../../language/index.ts";
import { lineEvents, type Field, type Recorded } from "../../register/index.ts";
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
      rows: fields.map(([name, field], at) => formRow(input, name, field, at)),
    },
    { kind: "sign", items: recordFormWords.sign },
  ]);

function formRow({ line, patient }: PaperInput, name: PlacingField, field: Field, at: number): FormRow {
  const recorded = line.said[name] as Recorded<unknown> | undefined;
  const known = recorded !== undefined && "value" in recorded;
  const { value, note } = saidValue(field, recorded);
  const options = optionsOf(field);
  const who = patient ? `${patient.name}, ${sayIdentifiers(patient.number, parseCivilDate(patient.bornOn))}` : "";
  return {
    number: at + 1,
    label: sayField(name),
    kind: options.length > 0 ? "boxes" : "rule",
    options,
    unit: known
      ? ""
      : field.kind === "number"
        ? field.unit
        : field.kind === "count"
          ? recordFormWords.number
          : field.kind === "date"
            ? recordFormWords.day
            : "",
    // a record's own key means nothing on paper: the person is written as people know them
    value: !known || options.length > 0 || name === "referral" ? "" : name === "patient" ? who : value,
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
