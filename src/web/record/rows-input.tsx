import { type ReactNode } from "react";
import { civilDateOf, clockOf, parseInstant, wallClock, type CivilDate } from "../../core/calendar/index.ts";
import { sayField, sayOption } from "../../language/index.ts";
import type { Field } from "../../register/index.ts";

type Row = Readonly<Record<string, unknown>>;
type RowsField = Extract<Field, { readonly kind: "rows" }>;

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Rows of one kind, such as bottles: two stand ready, more are added one at a time. */
export function RowsInput({
  label,
  field,
  text,
  set,
}: {
  readonly label: string;
  readonly field: RowsField;
  readonly text: string;
  readonly set: (text: string) => void;
}): ReactNode {
  const rows = readRows(text);
  const change = (index: number, key: string, value: unknown) => {
    const next = rows.map((row, at) => (at === index ? without({ ...row, [key]: value }) : row));
    set(next.every((row) => Object.keys(row).length === 0) ? "" : JSON.stringify(next));
  };
  return (
    <fieldset className="rows">
      <legend>{label}</legend>
      {rows.map((row, index) => (
        // rows have no name of their own: their place is their name
        // oxlint-disable-next-line no-array-index-key
        <fieldset key={index} className="row" aria-label={`${label}, ${index + 1}`}>
          <b>{index + 1}</b>
          {Object.entries(field.fields).map(([key, inner]) => (
            <RowCell key={key} name={key} field={inner} value={row[key]} set={(value) => change(index, key, value)} />
          ))}
        </fieldset>
      ))}
      {rows.length < field.most ? (
        <button type="button" className="add" onClick={() => set(JSON.stringify([...rows, {}]))}>
          One more
        </button>
      ) : null}
    </fieldset>
  );
}

function RowCell({
  name,
  field,
  value,
  set,
}: {
  readonly name: string;
  readonly field: Field;
  readonly value: unknown;
  readonly set: (value: unknown) => void;
}): ReactNode {
  const shown = typeof value === "string" || typeof value === "number" ? `${value}` : "";
  if (field.kind === "choice") {
    return (
      <label>
        {sayField(name)}
        <select value={shown} data-row={name} onChange={({ target }) => set(target.value || undefined)}>
          <option value="">choose</option>
          {field.options.map((option) => (
            <option key={option} value={option}>
              {sayOption(option)}
            </option>
          ))}
        </select>
      </label>
    );
  }
  if (field.kind === "instant") {
    return (
      <label>
        {sayField(name)}
        <input
          type="datetime-local"
          data-row={name}
          value={localOf(shown)}
          onChange={({ target }) => set(instantOf(target.value) ?? undefined)}
        />
      </label>
    );
  }
  const numeric = field.kind === "number" || field.kind === "count";
  return (
    <label>
      {sayField(name)}
      {field.kind === "number" ? `, ${field.unit}` : ""}
      <input
        inputMode={numeric ? "decimal" : "text"}
        data-row={name}
        defaultValue={shown}
        onBlur={({ target }) => set(read(target.value, numeric))}
      />
    </label>
  );
}

/** A number that is none stays as typed, and the reader of the entry says so. */
function read(text: string, numeric: boolean): unknown {
  if (text.trim() === "") return undefined;
  const number = Number(text.replace(",", "."));
  return numeric && Number.isFinite(number) ? number : text.trim();
}

function localOf(text: string): string {
  const instant = parseInstant(text);
  return instant ? `${civilDateOf(instant)}T${clockOf(instant)}` : "";
}

function instantOf(local: string): string | undefined {
  const [date, clock] = local.split("T");
  if (!date || !clock) return undefined;
  const found = wallClock(date as CivilDate, clock.slice(0, 5), zone);
  return found.kind === "one" ? found.instant : found.kind === "twice" ? found.first : undefined;
}

function readRows(text: string): readonly Row[] {
  if (text === "") return [{}, {}];
  try {
    const rows: unknown = JSON.parse(text);
    return Array.isArray(rows) ? (rows as Row[]) : [{}];
  } catch {
    return [{}];
  }
}

const without = (row: Row): Row => Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined));
