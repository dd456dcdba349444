import { MISSING_KINDS } from "../../core/missing/index.ts";
import type { EntryDraft, Typed } from "../../contract/index.ts";

/**
 * What was typed about the service's own numbers and is not written yet. It is kept in this tab, so that a reload or a
 * lost network takes nothing; it goes when it is written or the tab is closed. It names no patient by design, and no
 * form about a person keeps its words this way: an unsealed page is no place for them.
 */
const PREFIX = "veinwright.count-typed.";

export function keepTyped(key: string, value: object | undefined): void {
  try {
    if (value === undefined) globalThis.sessionStorage.removeItem(PREFIX + key);
    else globalThis.sessionStorage.setItem(PREFIX + key, JSON.stringify(value));
  } catch {
    // a browser that keeps nothing still holds it on the page
  }
}

function readTyped(key: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const kept: unknown = JSON.parse(globalThis.sessionStorage.getItem(PREFIX + key) ?? "null");
    return typeof kept === "object" && kept !== null && !Array.isArray(kept)
      ? (kept as Readonly<Record<string, unknown>>)
      : undefined;
  } catch {
    return undefined;
  }
}

/** The answers of a form as they were typed; undefined where none are kept or they cannot be read. */
export function typedDraft(key: string): EntryDraft | undefined {
  const kept = readTyped(key);
  if (!kept) return undefined;
  const draft: Record<string, Typed> = {};
  for (const [name, one] of Object.entries(kept)) {
    const { text, missing } = (one ?? {}) as Readonly<Record<string, unknown>>;
    const kind = MISSING_KINDS.find((known) => known === missing);
    if (typeof text === "string") draft[name] = { text, ...(kind && { missing: kind }) };
  }
  return Object.keys(draft).length > 0 ? draft : undefined;
}

/** Plain boxes as they were typed, over what they hold at first; only what has the same kind is taken. */
export function typedOver<Boxes extends Readonly<Record<string, string | boolean>>>(key: string, start: Boxes): Boxes {
  const kept = readTyped(key) ?? {};
  const same = Object.entries(kept).filter(([name, value]) => name in start && typeof value === typeof start[name]);
  return { ...start, ...Object.fromEntries(same) };
}

export const hasTyped = (key: string): boolean => readTyped(key) !== undefined;
