import { createContext, useContext, useId, type ReactNode } from "react";
import { readNumber } from "../../contract/index.ts";
import { amountWords, measureAgain } from "../../language/index.ts";

export interface Entry {
  readonly fields: Readonly<Record<string, string>>;
  readonly type: (path: string, text: string) => void;
  /** Faults and questions by path, in words. */
  readonly faults: Readonly<Record<string, string>>;
  /** Whether what was typed at a path is older than its policy allows. */
  readonly isOld: (path: string) => boolean;
}

export const EntryContext = createContext<Entry>({ fields: {}, type: () => undefined, faults: {}, isOld: () => false });

/** One typed field: label, unit inside the line, the question under it. The text is kept whatever it is. */
export function Field({
  path,
  label,
  unit,
  wide,
  hidden,
  aloud,
  suggestions,
}: {
  readonly path: string;
  readonly label: string;
  readonly unit?: string;
  readonly wide?: boolean;
  readonly hidden?: boolean;
  /** Echoes the number in words, where a lost point would hurt. */
  readonly aloud?: boolean;
  /** Words that may be meant; anything else may be typed too. */
  readonly suggestions?: readonly string[];
}): ReactNode {
  const { fields, type, faults, isOld } = useContext(EntryContext);
  const id = useId();
  const fault = faults[path];
  const words = aloud && unit && !fault ? echoOf(fields[path] ?? "", unit) : undefined;
  return (
    <div className={wide ? "field wide" : "field"}>
      <label htmlFor={id}>{label}</label>
      <span className="typed">
        <input
          id={id}
          type={hidden ? "password" : "text"}
          inputMode={unit ? "decimal" : "text"}
          autoComplete="off"
          value={fields[path] ?? ""}
          data-path={path}
          list={suggestions ? `${id}-list` : undefined}
          aria-invalid={fault ? true : undefined}
          aria-describedby={fault ? `${id}-fault` : undefined}
          onChange={(event) => type(path, event.target.value)}
        />
        {unit ? <span className="unit">{unit}</span> : null}
      </span>
      {suggestions ? (
        <datalist id={`${id}-list`}>
          {suggestions.map((word) => (
            <option key={word} value={word}>
              {word}
            </option>
          ))}
        </datalist>
      ) : null}
      {fault ? (
        <p className="fault" id={`${id}-fault`}>
          {fault}
        </p>
      ) : null}
      {words ? <p className="echo">{words}</p> : null}
      {isOld(path) ? <p className="again">{measureAgain}</p> : null}
    </div>
  );
}

/** What was typed, read back in words; undefined for what is no number or has no unit yet. */
export function echoOf(text: string, unit: string): string | undefined {
  const reading = readNumber(text);
  return reading.kind === "number" ? amountWords(reading.value, unit) : undefined;
}

/** One choice among a few, as words to press. Nothing is chosen until a person chooses. */
export function Choice({
  path,
  label,
  options,
}: {
  readonly path: string;
  readonly label: string;
  readonly options: readonly (readonly [value: string, word: string])[];
}): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const name = useId();
  const now = fields[path] ?? "";
  return (
    <fieldset className="choice">
      <legend>{label}</legend>
      {options.map(([value, word]) => (
        <label key={value} className={now === value ? "pressed" : undefined}>
          <input
            type="radio"
            name={name}
            checked={now === value}
            data-path={path}
            data-value={value}
            onChange={() => type(path, value)}
          />
          {word}
        </label>
      ))}
    </fieldset>
  );
}

export const YES_NO = [
  ["no", "no"],
  ["yes", "yes"],
] as const;
