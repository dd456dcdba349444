import { parseCivilDate } from "../core/calendar/index.ts";
import { MISSING_KINDS, type MissingKind } from "../core/missing/index.ts";
import type { Entry, Field, Fields, Origin, Recorded } from "../register/index.ts";
import { shown, type Fault } from "./fault.ts";
import { readNumber } from "./number-text.ts";
import { valueFaults } from "./read-event.ts";

/**
 * What is being typed into one field: its text as typed, an absence chosen, or a value still standing from a plan. Lists
 * keep their options apart by a line break. Nothing is refused while it is typed, so nothing typed is lost.
 */
export interface Typed {
  readonly text: string;
  readonly missing?: MissingKind;
  readonly from?: Origin;
}
export type EntryDraft = Readonly<Record<string, Typed>>;

export interface ReadEntry {
  readonly entry: Entry;
  readonly faults: readonly Fault[];
}

/** The entry a draft stands for, and every fault in it. Empty fields are left out: they were not asked. */
export function readEntryDraft(fields: Fields, draft: EntryDraft): ReadEntry {
  const entry: Record<string, Recorded<unknown>> = {};
  const faults: Fault[] = [];
  for (const [key, field] of Object.entries(fields)) {
    const typed = draft[key];
    if (typed === undefined) continue;
    if (typed.missing !== undefined) {
      entry[key] = { missing: typed.missing };
      continue;
    }
    if (typed.text.trim() === "") continue;
    const read = readTyped(field, typed.text);
    if (read.kind === "missing") entry[key] = { missing: read.why };
    else if (read.kind === "fault") faults.push({ path: key, ...read.fault });
    else {
      const found = valueFaults(field, read.value, key);
      faults.push(...found);
      if (found.length === 0) entry[key] = { value: read.value, from: typed.from ?? "measured" };
    }
  }
  return { entry: entry as Entry, faults };
}

type Reading =
  | { readonly kind: "value"; readonly value: unknown }
  | { readonly kind: "missing"; readonly why: MissingKind }
  | { readonly kind: "fault"; readonly fault: Omit<Fault, "path"> };

function readTyped(field: Field, text: string): Reading {
  const trimmed = text.trim();
  const absent = MISSING_KINDS.find((kind) => kind === trimmed.toLowerCase());
  if (absent) return { kind: "missing", why: absent };
  switch (field.kind) {
    case "number":
    case "count": {
      const read = readNumber(trimmed);
      if (read.kind === "number") return { kind: "value", value: read.value };
      if (read.kind === "not known") return { kind: "missing", why: "not known" };
      const separated = read.kind === "thousands separator";
      return {
        kind: "fault",
        fault: {
          code: separated ? "thousands-separator" : "wrong-type",
          found: shown(trimmed),
          rule: separated ? "the number without a separator" : "a number",
        },
      };
    }
    case "choices":
      return { kind: "value", value: trimmed.split("\n").filter((one) => one !== "") };
    case "yes-no":
      return trimmed === "yes" || trimmed === "no"
        ? { kind: "value", value: trimmed === "yes" }
        : { kind: "fault", fault: { code: "not-in-list", found: shown(trimmed), rule: "yes or no" } };
    case "rows":
      return readRows(trimmed);
    case "date":
      return parseCivilDate(trimmed)
        ? { kind: "value", value: trimmed }
        : { kind: "fault", fault: { code: "no-such-date", found: shown(trimmed), rule: "a day that exists" } };
    case "choice":
    case "instant":
    case "name":
    case "reference":
    case "text":
      return { kind: "value", value: trimmed };
    default:
      return field satisfies never;
  }
}

function readRows(text: string): Reading {
  try {
    return { kind: "value", value: JSON.parse(text) };
  } catch {
    return { kind: "fault", fault: { code: "wrong-type", found: shown(text), rule: "rows of values" } };
  }
}

/** The draft an entry would be typed as: what a form starts from when it is filled from a plan or opened again. */
export function draftOfEntry(entry: Entry): EntryDraft {
  return Object.fromEntries(
    Object.entries(entry).flatMap(([key, recorded]): [string, Typed][] => {
      if (recorded === undefined) return [];
      if ("missing" in recorded) return [[key, { text: "", missing: recorded.missing }]];
      return [[key, { text: textOf(recorded.value), from: recorded.from }]];
    }),
  );
}

function textOf(value: unknown): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) {
    return value.every((one) => typeof one === "string") ? value.join("\n") : JSON.stringify(value);
  }
  return String(value);
}
