import type { Field, Fields, Need } from "./field.ts";

/** The kinds of field, written short enough that a catalogue reads like a form. */
export const number = (unit: string, least: number, most: number, need: Need = "should") =>
  ({ kind: "number", unit, least, most, need }) as const;
export const count = (least: number, most: number, need: Need = "should") =>
  ({ kind: "count", least, most, need }) as const;
export const choice = <const Options extends readonly string[]>(options: Options, need: Need = "should") =>
  ({ kind: "choice", options, need }) as const;
export const choices = <const Options extends readonly string[]>(options: Options, need: Need = "should") =>
  ({ kind: "choices", options, need }) as const;
export const yesNo = (need: Need = "should") => ({ kind: "yes-no", need }) as const;
export const date = (need: Need = "should") => ({ kind: "date", need }) as const;
export const instant = (need: Need = "should") => ({ kind: "instant", need }) as const;
/** A person's name or initials. */
export const name = (need: Need = "should") => ({ kind: "name", need }) as const;
/** Free words: shown, kept, and never read by a rule. */
export const text = (need: Need = "may") => ({ kind: "text", need }) as const;
/** The identifier of another subject. */
export const reference = (need: Need = "should") => ({ kind: "reference", need }) as const;
export const rows = <const Inner extends Fields>(fields: Inner, most: number, need: Need = "may") =>
  ({ kind: "rows", fields, most, need }) as const satisfies Field;
