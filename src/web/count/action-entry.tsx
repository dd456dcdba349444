import { useMemo, useState, type ReactNode } from "react";
import type { Measure, MonthAction } from "../../audit/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { memoryWords, sayMeasure } from "../../language/index.ts";
import { keepTyped, typedOver } from "./kept-draft.ts";
import { fileAction, keepFileAction } from "./local-action.ts";

/** Last month's action of a file, as this device keeps it; a browser that keeps nothing still shows it in this tab. */
export function useFileAction(
  month: CivilDate,
): readonly [MonthAction | undefined, (action: MonthAction | undefined) => void] {
  const [held, setHeld] = useState<{ readonly month: CivilDate; readonly action: MonthAction | undefined }>();
  const stored = useMemo(() => fileAction(month), [month]);
  return [
    held?.month === month ? held.action : stored,
    (next) => {
      setHeld({ month, action: next });
      keepFileAction(month, next);
    },
  ];
}

/** What last month decided, of a file that has no record here: it stands first on the pack. */
export function ActionEntry({
  month,
  measures,
  action,
  keep,
}: {
  readonly month: CivilDate;
  readonly measures: readonly Measure[];
  readonly action: MonthAction | undefined;
  readonly keep: (action: MonthAction | undefined) => void;
}): ReactNode {
  const [typed, setTyped] = useState(() =>
    typedOver(`action before ${month}`, {
      what: action?.what ?? "",
      owner: action?.owner ?? "",
      dueOn: (action?.dueOn as string | undefined) ?? "",
      measure: action?.measure ?? "any-complication",
      done: action?.done ?? false,
    }),
  );
  const put = (part: Partial<typeof typed>): void => {
    const next = { ...typed, ...part };
    setTyped(next);
    // half an action is kept in this tab, a whole one on the device
    keepTyped(`action before ${month}`, next);
    const dueOn = parseCivilDate(next.dueOn);
    keep(next.what.trim() !== "" && next.owner.trim() !== "" && dueOn ? { ...next, dueOn } : undefined);
  };
  return (
    <fieldset className="period action">
      <legend>Last month's action: what, who, by when, by which measure</legend>
      <label className="wide">
        What was decided
        <input
          type="text"
          value={typed.what}
          data-action="what"
          onChange={({ target }) => put({ what: target.value })}
        />
      </label>
      <label>
        Owner
        <input
          type="text"
          value={typed.owner}
          data-action="owner"
          autoComplete="off"
          onChange={({ target }) => put({ owner: target.value })}
        />
      </label>
      <label>
        Due
        <input
          type="date"
          value={typed.dueOn}
          data-action="due"
          onChange={({ target }) => put({ dueOn: target.value })}
        />
      </label>
      <label>
        Measure
        <select value={typed.measure} data-action="measure" onChange={({ target }) => put({ measure: target.value })}>
          {measures.map(({ id }) => (
            <option key={id} value={id}>
              {sayMeasure(id)}
            </option>
          ))}
        </select>
      </label>
      <label className="tick">
        <input type="checkbox" checked={typed.done} onChange={({ target }) => put({ done: target.checked })} />
        Done
      </label>
      <output className="soft wide">{memoryWords.fileAction(action !== undefined)}</output>
    </fieldset>
  );
}
