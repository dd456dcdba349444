import type { CivilDate } from "../../core/calendar/index.ts";
import { LINE_CLOCKS, PATIENT_CLOCKS } from "../../core/dwell/index.ts";
import type { HowKnown } from "../../core/reason/index.ts";
import type { Measure } from "../measure/index.ts";

/** "not printed" where the source does not say how it counted its days: then nothing is put beside it. */
export const YARDSTICK_CLOCKS = [...LINE_CLOCKS, ...PATIENT_CLOCKS, "none", "not printed"] as const;
export const YARDSTICK_UNITS = ["per 1,000 days", "share"] as const;
export const VALUE_FROM = ["printed", "worked out"] as const;

/**
 * A figure somebody published of the same thing, with whose lines it was and how they were counted. Context only: it is
 * no target, judges nothing, and other people's lines are not this service's.
 */
export interface Yardstick {
  readonly id: string;
  readonly measure: Measure["id"];
  /** Per 1,000 days, or a share of one. */
  readonly value: number;
  readonly unit: (typeof YARDSTICK_UNITS)[number];
  /** Printed as it stands, or worked out from the counts that were printed. */
  readonly valueFrom: (typeof VALUE_FROM)[number];
  /** Only as it was printed; null where none was. */
  readonly interval: { readonly lower: number; readonly upper: number; readonly level: number } | null;
  /** Events, or lines that had it. */
  readonly counted: number | null;
  /** Days, or lines, that it was counted over. */
  readonly over: number | null;
  readonly lines: number | null;
  readonly denominator: Measure["denominator"];
  readonly clock: (typeof YARDSTICK_CLOCKS)[number];
  readonly clockHowKnown: HowKnown;
  /** What was counted, in words. */
  readonly definition: string;
  /** In what its definition is another than the measure's; empty when they agree. */
  readonly differs: readonly string[];
  readonly population: string;
  /** The population in two or three words, for a line on paper. */
  readonly place: string;
  readonly country: string;
  readonly years: string;
  readonly source: string;
  readonly section: string;
  readonly howKnown: HowKnown;
  readonly author: string;
  readonly reviewOn: CivilDate;
}

/** Why a published figure may not stand beside one's own. */
export type Difference =
  | { readonly of: "clock"; readonly theirs: string; readonly ours: string }
  | { readonly of: "denominator"; readonly theirs: string; readonly ours: string }
  | { readonly of: "definition"; readonly words: string };

export interface Beside {
  /** Counted alike: may be shown beside the service's own figure, as context. */
  readonly alike: readonly Yardstick[];
  /** Counted otherwise: its number is withheld, what differs is told. */
  readonly apart: readonly { readonly yardstick: Yardstick; readonly differences: readonly Difference[] }[];
}

/**
 * Published figures of a measure, parted into those counted alike and those that are not.
 *   alike: same denominator, same clock, and a definition that does not differ
 * Source: rates of different denominators are never compared (common practice, no source; Couk and others 2019, Infect
 * Control Hosp Epidemiol 40:1019: 1.30 by patient-days and 1.22 by line on the same wards). Holds: any measure.
 * Example: a rate over days at census is told apart from a measure over calendar line-days.
 */
export function besides(yardsticks: readonly Yardstick[], measure: Measure): Beside {
  const own = yardsticks
    .filter((one) => one.measure === measure.id)
    .map((yardstick) => ({ yardstick, differences: differencesOf(yardstick, measure) }));
  return {
    alike: own.filter(({ differences }) => differences.length === 0).map(({ yardstick }) => yardstick),
    apart: own.filter(({ differences }) => differences.length > 0),
  };
}

function differencesOf({ denominator, clock, differs }: Yardstick, measure: Measure): readonly Difference[] {
  const overOther: Difference[] =
    denominator === measure.denominator
      ? clock === measure.clock
        ? []
        : [{ of: "clock", theirs: clock, ours: measure.clock }]
      : [{ of: "denominator", theirs: denominator, ours: measure.denominator }];
  return [...overOther, ...differs.map((words): Difference => ({ of: "definition", words }))];
}
