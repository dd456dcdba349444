/** How a figure is known. Printed with every rule, so nobody takes a habit for a trial. */
export const HOW_KNOWN = ["published", "common practice", "from memory", "local"] as const;
export type HowKnown = (typeof HOW_KNOWN)[number];

/**
 * One limit as data. No clinical threshold is a literal in code: it is a row here, with where it comes from, who owns it
 * and since when. A hospital edits the value; the row then says "local" and names the owner and date.
 */
export interface PolicyRow<Value = PolicyValue> {
  readonly value: Value;
  /** Printed after the value; "" for a pure number or a list of words. */
  readonly unit: string;
  /** What the row decides, in plain words. */
  readonly decides: string;
  /** Author and year (and section or table), or "no source". Never a protocol's acronym. */
  readonly source: string;
  /** Where in the source: a table, a section, "abstract". */
  readonly place?: string;
  readonly howKnown: HowKnown;
  /** Other values in print, with their source, where published limits disagree: local policy picks one. */
  readonly others?: readonly string[];
  readonly owner: string;
  /** Civil date, YYYY-MM-DD. */
  readonly date: string;
  /** The values an editor accepts, for numbers. */
  readonly range?: readonly [least: number, most: number];
}

export type PolicyValue = number | string | boolean | readonly number[] | readonly string[];
