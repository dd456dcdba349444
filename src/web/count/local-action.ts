import type { MonthAction } from "../../audit/index.ts";
import { addDays, parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";

/**
 * Actions as this device kept them before the record did, by the month whose pack they opened. They are read until a
 * person has signed them into the record or let them go; a file of another service keeps its own under another name.
 */
const OLD = "veinwright.action.";
const OF_FILE = "veinwright.file-action.";

export interface LocalAction {
  /** The month whose meeting agreed on it: the one before the pack it opened. */
  readonly agreedIn: string;
  readonly key: string;
  readonly action: MonthAction;
}

/** Every action of the old way that nobody has signed yet, the earliest first. */
export function localActions(): readonly LocalAction[] {
  try {
    return Object.keys(globalThis.localStorage)
      .filter((key) => key.startsWith(OLD))
      .sort()
      .flatMap((key) => {
        const month = parseCivilDate(key.slice(OLD.length));
        const action = readAction(globalThis.localStorage.getItem(key));
        return month && action ? [{ key, action, agreedIn: addDays(month, -1).slice(0, 7) }] : [];
      });
  } catch {
    return [];
  }
}

export function forgetLocal(key: string): void {
  try {
    globalThis.localStorage.removeItem(key);
  } catch {
    // a browser that keeps nothing has nothing to forget
  }
}

export function fileAction(month: CivilDate): MonthAction | undefined {
  try {
    const { localStorage } = globalThis;
    return readAction(localStorage.getItem(OF_FILE + month) ?? localStorage.getItem(OLD + month));
  } catch {
    return undefined;
  }
}

export function keepFileAction(month: CivilDate, action: MonthAction | undefined): void {
  try {
    if (action) globalThis.localStorage.setItem(OF_FILE + month, JSON.stringify(action));
    else globalThis.localStorage.removeItem(OF_FILE + month);
  } catch {
    // it stands in this tab and on the paper
  }
}

function readAction(text: string | null): MonthAction | undefined {
  try {
    const kept: unknown = JSON.parse(text ?? "null");
    const { what, owner, dueOn, measure, done } = (kept ?? {}) as Readonly<Record<string, unknown>>;
    const due = typeof dueOn === "string" ? parseCivilDate(dueOn) : undefined;
    return typeof what === "string" && typeof owner === "string" && due && typeof measure === "string"
      ? { what, owner, dueOn: due, measure, done: done === true }
      : undefined;
  } catch {
    return undefined;
  }
}
