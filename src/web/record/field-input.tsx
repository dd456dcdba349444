import { useId, type ReactNode } from "react";
import { readNumber, type Typed } from "../../contract/index.ts";
import { MISSING_KINDS, type MissingKind } from "../../core/missing/index.ts";
import { amountWords, sayField, sayOption } from "../../language/index.ts";
import type { Field } from "../../register/index.ts";
import { RowsInput } from "./rows-input.tsx";

const EMPTY: Typed = { text: "" };

/** One field of the record: its value, its unit, the kind of absence if it is absent, and the question under it. */
export function FieldInput({
  name,
  field,
  typed = EMPTY,
  fault,
  set,
}: {
  readonly name: string;
  readonly field: Field;
  readonly typed?: Typed | undefined;
  readonly fault?: string | undefined;
  readonly set: (typed: Typed) => void;
}): ReactNode {
  const id = useId();
  const type = (text: string) => set({ text });
  const planned = typed.from === "plan" && typed.missing === undefined;
  return (
    <div
      className={["said-field", field.kind === "rows" ? "in-rows" : "", planned ? "planned" : ""].join(" ").trim()}
      data-field={name}
    >
      {field.kind === "choice" || field.kind === "choices" || field.kind === "yes-no" ? (
        <Presses name={name} field={field} typed={typed} set={type} />
      ) : field.kind === "rows" ? (
        <RowsInput label={sayField(name)} field={field} text={typed.text} set={type} />
      ) : (
        <div className="field wide">
          <label htmlFor={id}>{sayField(name)}</label>
          <span className="typed">
            <input
              id={id}
              type={field.kind === "date" ? "date" : "text"}
              inputMode={field.kind === "number" || field.kind === "count" ? "decimal" : "text"}
              autoComplete="off"
              value={typed.text}
              disabled={typed.missing !== undefined}
              data-field={name}
              aria-invalid={fault ? true : undefined}
              aria-describedby={fault ? `${id}-fault` : undefined}
              onChange={(event) => type(event.target.value)}
            />
            {field.kind === "number" && field.unit !== "times" ? <span className="unit">{field.unit}</span> : null}
          </span>
        </div>
      )}
      {planned ? (
        <p className="from-plan">
          From the plan, not confirmed.{" "}
          <button type="button" onClick={() => set({ text: typed.text, from: "measured" })} data-confirm={name}>
            Confirm as found
          </button>
        </p>
      ) : null}
      {fault ? (
        <p className="fault" id={`${id}-fault`}>
          {fault}
        </p>
      ) : (
        <Aloud field={field} typed={typed} />
      )}
      {typed.text === "" || typed.missing !== undefined ? (
        <label className={typed.missing === undefined ? "absent" : "absent said"}>
          {typed.missing === undefined ? null : <span>absent:</span>}
          <select
            aria-label={`${sayField(name)}, why absent`}
            value={typed.missing ?? ""}
            onChange={({ target }) =>
              set(target.value === "" ? EMPTY : { text: "", missing: target.value as MissingKind })
            }
          >
            <option value="">why not?</option>
            {MISSING_KINDS.filter((kind) => kind !== "not asked").map((kind) => (
              <option key={kind} value={kind}>
                {kind}
              </option>
            ))}
          </select>
        </label>
      ) : null}
    </div>
  );
}

/** Lengths are read back in words: a lost point is the slip that hurts. */
function Aloud({ field, typed }: { readonly field: Field; readonly typed: Typed }): ReactNode {
  if (field.kind !== "number" || typed.text === "") return null;
  const reading = readNumber(typed.text);
  if (reading.kind !== "number") return null;
  const unit = field.unit === "times" ? "" : field.unit;
  if (!["cm", "mm", "mL", "mg"].includes(unit)) return null;
  return <p className="echo">{amountWords(reading.value, unit)}</p>;
}

function Presses({
  name,
  field,
  typed,
  set,
}: {
  readonly name: string;
  readonly field: Field;
  readonly typed: Typed;
  readonly set: (text: string) => void;
}): ReactNode {
  const group = useId();
  const many = field.kind === "choices";
  const options: readonly string[] = "options" in field ? field.options : ["yes", "no"];
  const chosen = typed.text.split("\n").filter((one) => one !== "");
  const press = (option: string) => {
    if (!many) return set(option);
    // "none" and "clean" say that nothing else is there
    const alone = (one: string) => one === "none" || one === "clean";
    const rest = alone(option) ? [] : chosen.filter((one) => !alone(one));
    return set((chosen.includes(option) ? chosen.filter((one) => one !== option) : [...rest, option]).join("\n"));
  };
  return (
    <fieldset className="choice">
      <legend>{sayField(name)}</legend>
      {options.map((option) => (
        <label key={option} className={chosen.includes(option) ? "pressed" : undefined}>
          <input
            type={many ? "checkbox" : "radio"}
            name={group}
            checked={chosen.includes(option)}
            data-field={name}
            data-value={option}
            onChange={() => press(option)}
          />
          {sayOption(option)}
        </label>
      ))}
    </fieldset>
  );
}
