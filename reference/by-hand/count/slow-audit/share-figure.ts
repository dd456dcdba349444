import { figureForm, proportionLimits, shareWithMissingEnds } from "../../../../src/core/incidence/index.ts";
import type { Measure } from "../../../../src/audit/index.ts";
import type { Figure } from "../../../../src/audit/index.ts";
import type { Part, Scene } from "./part.ts";

/** A count stands alone: it is what was seen and has no chance in it. */
export const BARE_COUNT = { name: "none: a count", limits: undefined } as const;

/** Rows that pass a test, over those whose answer is known; those unknown could all be one or the other. */
export function shareFigure<Row>(
  measure: Measure,
  { stratum }: Part,
  { limits, provisionalDay }: Scene,
  asked: {
    readonly rows: readonly Row[];
    readonly given: number;
    readonly verdict: (row: Row) => boolean | undefined;
    readonly keyOf: (row: Row) => string;
    readonly dayOf: (row: Row) => number | undefined;
  },
): Figure {
  const yes: Row[] = [];
  let used = 0;
  for (const row of asked.rows) {
    const verdict = asked.verdict(row);
    if (verdict === undefined) continue;
    used += 1;
    if (verdict) yes.push(row);
  }
  const unknown = asked.given - used;
  const bare = measure.denominator === "none";
  const empty = !bare && used === 0;
  const level = limits.level;
  const all = asked.given;
  return {
    measure: measure.id,
    stratum,
    form: bare ? "count" : empty ? "nothing to count over" : figureForm(yes.length, limits.fewestForEstimate),
    numerator: yes.length,
    denominator: bare ? undefined : used,
    value: bare || empty ? undefined : yes.length / used,
    interval: bare
      ? { ...BARE_COUNT, level }
      : {
          name: "exact binomial",
          level,
          limits: empty ? undefined : proportionLimits(yes.length, used, level, "exact"),
        },
    used,
    given: all,
    missing: {
      count: unknown,
      bounds: bare || all === 0 || unknown === 0 ? undefined : shareWithMissingEnds(yes.length, unknown, all),
      outer:
        bare || all === 0 || unknown === 0
          ? undefined
          : {
              lower: proportionLimits(yes.length, all, level, "exact").lower,
              upper: proportionLimits(yes.length + unknown, all, level, "exact").upper,
            },
    },
    provisional: yes.filter((row) => (asked.dayOf(row) ?? -Infinity) >= provisionalDay).length,
    lines: yes.map(asked.keyOf),
  };
}
