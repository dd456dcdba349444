import { useId, type ReactNode } from "react";
import { saySheetField, sayWhyColumn } from "../../language/index.ts";
import {
  DATE_ORDERS,
  FIELD_NAMES,
  fieldOf,
  WITHOUT_NUMBER,
  type ColumnMatch,
  type MatchingQuestion,
  type Suggestion,
} from "../../spreadsheet/index.ts";

const NOT_SAID = "";

/** One column: what it is taken for and why, what only a person can say, and the person's tick. */
export function ColumnRow({
  column,
  suggestion,
  sample,
  questions,
  confirmed,
  offersCarry,
  set,
  confirm,
}: {
  readonly column: ColumnMatch;
  readonly suggestion: Suggestion | undefined;
  readonly sample: readonly string[];
  readonly questions: readonly MatchingQuestion["code"][];
  readonly confirmed: boolean;
  readonly offersCarry: boolean;
  readonly set: (column: ColumnMatch) => void;
  readonly confirm: (on: boolean) => void;
}): ReactNode {
  const id = useId();
  const { header, field } = column;
  const known = field === "left out" ? undefined : fieldOf(field);
  const asksOrder = known?.kind === "date" && (column.order !== undefined || questions.includes("order not said"));
  const asksCentury =
    known?.kind === "date" && (column.twoDigitUpTo !== undefined || questions.includes("century not said"));
  const asksSystem =
    known?.kind === "date" && (column.serialSystem !== undefined || questions.includes("system not said"));
  const { order: _order, unit: _unit, serialSystem: _system, twoDigitUpTo: _upTo, ...bare } = column;
  const open = questions.length > 0;
  return (
    <li className={open ? "sheet-column open" : "sheet-column"} data-column={header}>
      <p className="column-name">
        <b>{header}</b>
        <span className="soft">
          {sample
            .filter((text) => text.trim() !== "")
            .slice(0, 2)
            .join(" · ") || "empty in the first rows"}
        </span>
      </p>
      <div className="column-asks">
        <Pick
          id={`${id}-field`}
          label="Is"
          value={field}
          options={["left out", ...FIELD_NAMES].map((name) => [name, saySheetField(name as typeof field)])}
          pick={(value) => set({ header: bare.header, field: value as typeof field })}
        />
        {known?.units ? (
          <Pick
            id={`${id}-unit`}
            label="In which unit?"
            value={column.unit ?? NOT_SAID}
            options={[[NOT_SAID, "not said"], ...known.units.map((unit) => [unit, unit] as const)]}
            pick={(value) => {
              const unit = known.units?.find((one) => one === value);
              const { unit: _old, ...rest } = column;
              set(unit ? { ...rest, unit } : rest);
            }}
          />
        ) : null}
        {asksOrder ? (
          <Pick
            id={`${id}-order`}
            label="Day or month first?"
            value={column.order ?? NOT_SAID}
            options={[[NOT_SAID, "not said"], ...DATE_ORDERS.map((order) => [order, order] as const)]}
            pick={(value) => {
              const order = DATE_ORDERS.find((one) => one === value);
              const { order: _old, ...rest } = column;
              set(order ? { ...rest, order } : rest);
            }}
          />
        ) : null}
        {asksCentury ? (
          <label className="ask" htmlFor={`${id}-century`}>
            Years of two digits are 20xx up to
            <input
              id={`${id}-century`}
              inputMode="numeric"
              value={column.twoDigitUpTo ?? ""}
              onChange={(event) => {
                const { twoDigitUpTo: _old, ...rest } = column;
                set(
                  /^\d{1,2}$/.test(event.target.value) ? { ...rest, twoDigitUpTo: Number(event.target.value) } : rest,
                );
              }}
            />
          </label>
        ) : null}
        {asksSystem ? (
          <Pick
            id={`${id}-system`}
            label="Day counts begin in"
            value={String(column.serialSystem ?? NOT_SAID)}
            options={[
              [NOT_SAID, "not said"],
              ["1900", "1900"],
              ["1904", "1904"],
            ]}
            pick={(value) => {
              const { serialSystem: _old, ...rest } = column;
              set(
                value === "1900"
                  ? { ...rest, serialSystem: 1900 }
                  : value === "1904"
                    ? { ...rest, serialSystem: 1904 }
                    : rest,
              );
            }}
          />
        ) : null}
        {field === "patient" &&
        (offersCarry || column.withoutNumber !== undefined || questions.includes("number above not said")) ? (
          <Pick
            id={`${id}-carry`}
            label="A row without a number takes"
            value={column.withoutNumber ?? NOT_SAID}
            options={[
              [NOT_SAID, "not said"],
              ["the number above", "the number above it"],
              ["left out", "none, and is left out"],
            ]}
            pick={(value) => {
              const withoutNumber = WITHOUT_NUMBER.find((one) => one === value);
              const { withoutNumber: _old, ...rest } = column;
              set(withoutNumber ? { ...rest, withoutNumber } : rest);
            }}
          />
        ) : null}
        <p className="soft why">{suggestion ? sayWhyColumn(suggestion) : "Chosen by a person."}</p>
      </div>
      <label className="tick">
        <input
          type="checkbox"
          checked={confirmed && !open}
          disabled={open}
          aria-label={`${header}: confirmed`}
          onChange={(event) => confirm(event.target.checked)}
        />
        {open ? "Answer first" : confirmed ? "Confirmed" : "Confirm"}
      </label>
    </li>
  );
}

function Pick({
  id,
  label,
  value,
  options,
  pick,
}: {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [value: string, word: string] | readonly string[])[];
  readonly pick: (value: string) => void;
}): ReactNode {
  return (
    <label className="ask" htmlFor={id}>
      {label}
      <select id={id} value={value} onChange={(event) => pick(event.target.value)}>
        {options.map(([option, word]) => (
          <option key={option} value={option}>
            {word}
          </option>
        ))}
      </select>
    </label>
  );
}
