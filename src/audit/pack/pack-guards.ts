import { dayNumber } from "../../core/calendar/index.ts";
import type { AuditRules, Period, StratumName } from "../figure/index.ts";
import { partGuards, rateGuards, type Guard, type PartGuard } from "../guard/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";

/** A measure with the warnings of its figure; a measure without any is not in the list. */
export interface PackGuard {
  readonly measure: string;
  readonly clock: Measure["clock"];
  readonly guards: readonly Guard[];
}

/** The warnings of every rate on the four pages, each by the period its figure is of. */
export interface PackGuards {
  readonly month: readonly PackGuard[];
  readonly before: readonly PackGuard[];
  readonly year: readonly PackGuard[];
  /** Of the base that the second page watches by, where it was made from these lines. */
  readonly base: readonly PackGuard[];
  readonly parts: readonly (PartGuard & { readonly measure: string })[];
}

/**
 * What must be said beside the rates of a pack, of measures that somebody ever wrote down.
 * Units: days of each measure's clock, events. Holds: any table. Source: as `rateGuards` and `partGuards`.
 */
export function packGuards(
  table: AuditTable,
  { written, watched }: { readonly written: readonly Measure[]; readonly watched: readonly Measure[] },
  periods: Readonly<Record<"month" | "before" | "year", Period>> & { readonly base: Period | undefined },
  strata: readonly StratumName[],
  rules: AuditRules,
): PackGuards {
  const rates = written.filter(({ numerator, clock }) => numerator.count === "events" && clock !== "none");
  const over = (measures: readonly Measure[], period: Period): readonly PackGuard[] =>
    measures.flatMap((measure) => {
      const guards = rateGuards(table, measure, period, rules);
      return guards.length === 0 ? [] : [{ measure: measure.id, clock: measure.clock, guards }];
    });
  const { month, before, year, base } = periods;
  return {
    month: over(rates, month),
    before: over(rates, before),
    year: over(watched, year),
    base: base && dayNumber(base.from) < dayNumber(base.to) ? over(watched, base) : [],
    parts: watched.flatMap((measure) =>
      partGuards(table, measure, year, strata, rules).map((part) => ({ ...part, measure: measure.id })),
    ),
  };
}
