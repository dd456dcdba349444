import type { MissingKind } from "../../core/missing/index.ts";

/**
 * What a value rests on. Only "measured" and "told" count in a decision or an audit; a value copied from a plan waits
 * for a person to confirm it, and an imported one says where it came from.
 */
export const ORIGINS = ["measured", "told", "plan", "imported"] as const;
export type Origin = (typeof ORIGINS)[number];

/** A value with what it rests on, or one of the four absences; a field left out altogether is "not asked". */
export type Recorded<Value> = { readonly value: Value; readonly from: Origin } | { readonly missing: MissingKind };

/** How much it matters when it is missing: what is missing is listed in this order. */
export const NEEDS = ["must", "should", "may"] as const;
export type Need = (typeof NEEDS)[number];

interface Common {
  readonly need: Need;
}

/** One thing an event can say. One catalogue serves the form, the paper, the reader of files and the export. */
export type Field =
  | (Common & { readonly kind: "number"; readonly unit: string; readonly least: number; readonly most: number })
  | (Common & { readonly kind: "count"; readonly least: number; readonly most: number })
  | (Common & { readonly kind: "choice"; readonly options: readonly string[] })
  | (Common & { readonly kind: "choices"; readonly options: readonly string[] })
  | (Common & { readonly kind: "yes-no" | "date" | "instant" | "name" | "text" | "reference" })
  | (Common & { readonly kind: "rows"; readonly fields: Fields; readonly most: number });

export type Fields = Readonly<Record<string, Field>>;

/** The type of a field's value, read off its description. */
export type ValueOf<Described> = Described extends { readonly kind: "number" | "count" }
  ? number
  : Described extends { readonly kind: "choice"; readonly options: readonly (infer Option)[] }
    ? Option
    : Described extends { readonly kind: "choices"; readonly options: readonly (infer Option)[] }
      ? readonly Option[]
      : Described extends { readonly kind: "yes-no" }
        ? boolean
        : Described extends { readonly kind: "rows"; readonly fields: infer Inner }
          ? readonly { readonly [Key in keyof Inner]?: ValueOf<Inner[Key]> }[]
          : string;

/** What was said: any of the fields, each with its origin or its absence. */
export type Entry<Described = Fields> = { readonly [Key in keyof Described]?: Recorded<ValueOf<Described[Key]>> };

/** A value whatever it rests on; undefined while it is absent. */
export const valueIn = <Value>(recorded: Recorded<Value> | undefined): Value | undefined =>
  recorded !== undefined && "value" in recorded ? recorded.value : undefined;

/** A value somebody measured or was told, or that came with an import; one copied from a plan does not count yet. */
export const confirmedIn = <Value>(recorded: Recorded<Value> | undefined): Value | undefined =>
  recorded !== undefined && "value" in recorded && recorded.from !== "plan" ? recorded.value : undefined;

export const measured = <Value>(value: Value): Recorded<Value> => ({ value, from: "measured" });
export const told = <Value>(value: Value): Recorded<Value> => ({ value, from: "told" });
export const fromPlan = <Value>(value: Value): Recorded<Value> => ({ value, from: "plan" });
