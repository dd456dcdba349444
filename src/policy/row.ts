import type { HowKnown, PolicyRow, PolicyValue } from "../core/reason/index.ts";

/** The day the defaults of this release were set. */
export const DEFAULTS_DATE = "2026-11-25";
export const DEFAULTS_OWNER = "Veinwright defaults";

export interface Provenance {
  readonly source: string;
  readonly place?: string;
  readonly howKnown: HowKnown;
  readonly others?: readonly string[];
}

export const published = (source: string, place?: string): Provenance => ({
  source,
  howKnown: "published",
  ...(place ? { place } : {}),
});
export const fromMemory = (source: string, place?: string): Provenance => ({
  source,
  howKnown: "from memory",
  ...(place ? { place } : {}),
});
export const commonPractice: Provenance = { source: "no source", howKnown: "common practice" };
export const local: Provenance = { source: "no source", howKnown: "local" };

/** Makes one default row; widened so that a hospital may set another number or text of the same kind. */
export function row<Value extends PolicyValue>(
  value: Value,
  unit: string,
  decides: string,
  provenance: Provenance,
  range?: readonly [number, number],
): PolicyRow<Widened<Value>> {
  return {
    value: value as unknown as Widened<Value>,
    unit,
    decides,
    ...provenance,
    owner: DEFAULTS_OWNER,
    date: DEFAULTS_DATE,
    ...(range ? { range } : {}),
  };
}

export type Widened<Value> = Value extends number
  ? number
  : Value extends string
    ? string
    : Value extends boolean
      ? boolean
      : Value extends readonly number[]
        ? readonly number[]
        : Value extends readonly string[]
          ? readonly string[]
          : Value;
