import type { Fault } from "./fault.ts";

/** Control signs, line separators, signs that turn the line round, and half characters: a name with one could forge an answer. */
const HIDDEN = /[\p{Cc}\u2028\u2029\u200b-\u200f\u2060\u3164\ufeff\u202a-\u202e\u2066-\u2069]|\p{Surrogate}/u;

/** Every text of an entry that holds a sign nobody can see. */
export function hiddenSigns(value: unknown, path: string): Fault[] {
  if (typeof value === "string") {
    return HIDDEN.test(value)
      ? [{ path, code: "hidden-sign", found: "a sign that cannot be seen", rule: "letters, numbers and signs" }]
      : [];
  }
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, entry]) => hiddenSigns(entry, path === "" ? key : `${path}.${key}`));
}
