import { useState, type ReactNode } from "react";
import type { Measure, MonthAction } from "../../audit/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { sayMeasure } from "../../language/index.ts";

const keyOf = (month: CivilDate): string => `veinwright.action.${month}`;

/** Last month's action as this device keeps it; a browser that keeps nothing still shows it in this tab. */
export function useLastAction(
  month: CivilDate,
): readonly [MonthAction | undefined, (action: MonthAction | undefined) => void] {
  const [held, setHeld] = useState<{ readonly month: CivilDate; readonly action: MonthAction | undefined }>();
  const action = held?.month === month ? held.action : read(month);
  return [
    action,
    (next) => {
      setHeld({ month, action: next });
      try {
        if (next) globalThis.localStorage.setItem(keyOf(month), JSON.stringify(next));
        else globalThis.localStorage.removeItem(keyOf(month));
      } catch {
        // it stands in this tab and on the paper
      }
    },
  ];
}

const READ = new Map<string, MonthAction | undefined>();

/** Read once for a month, so that a drawing finds the same action again. */
function read(month: CivilDate): MonthAction | undefined {
  const key = keyOf(month);
  if (!READ.has(key)) READ.set(key, stored(key));
  return READ.get(key);
}

function stored(key: string): MonthAction | undefined {
  try {
    const kept: unknown = JSON.parse(globalThis.localStorage.getItem(key) ?? "null");
    const { what, owner, dueOn, measure, done } = (kept ?? {}) as Readonly<Record<string, unknown>>;
    const due = typeof dueOn === "string" ? parseCivilDate(dueOn) : undefined;
    return typeof what === "string" && typeof owner === "string" && due && typeof measure === "string"
      ? { what, owner, dueOn: due, measure, done: done === true }
      : undefined;
  } catch {
    return undefined;
  }
}

/** What last month decided: it stands first on the pack. */
export function ActionEntry({
  measures,
  action,
  keep,
}: {
  readonly measures: readonly Measure[];
  readonly action: MonthAction | undefined;
  readonly keep: (action: MonthAction | undefined) => void;
}): ReactNode {
  const [typed, setTyped] = useState({
    what: action?.what ?? "",
    owner: action?.owner ?? "",
    dueOn: (action?.dueOn as string | undefined) ?? "",
    measure: action?.measure ?? "any-complication",
    done: action?.done ?? false,
  });
  const put = (part: Partial<typeof typed>): void => {
    const next = { ...typed, ...part };
    setTyped(next);
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
    </fieldset>
  );
}
