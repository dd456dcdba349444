import type { Maybe } from "../missing/index.ts";
import type { MillilitrePerHour, Minute } from "../quantity/index.ts";

/** When an infusion runs. Clock times are minutes after midnight; a dose may run past midnight. */
export type Timing =
  /** Runs all the time on its active days. */
  | { readonly kind: "continuous" }
  /** At clock times, for example 06:00 and 18:00. */
  | { readonly kind: "at clock times"; readonly startsMin: readonly Minute[]; readonly runMin: Minute }
  /** Every so many hours from a first clock time; the interval divides 24 h. */
  | { readonly kind: "at an interval"; readonly firstMin: Minute; readonly everyMin: Minute; readonly runMin: Minute };

/** What runs. Nutrition is never moved. */
export const CONTENTS = ["drug", "nutrition", "blood", "vesicant", "sampling"] as const;
export type Content = (typeof CONTENTS)[number];

export interface Infusion {
  readonly id: string;
  readonly name: string;
  readonly content: Content;
  readonly timing: Timing;
  /** The flush occupies the lumen as the drug does. A continuous infusion has none. */
  readonly flushBeforeMin: Minute;
  readonly flushAfterMin: Minute;
  /** How far pharmacy lets each dose move, either way. 0 is fixed. */
  readonly toleranceMin: Minute;
  /** False: never moved, whatever the tolerance. */
  readonly movable: boolean;
  readonly rateMlPerHour: Maybe<MillilitrePerHour>;
  /**
   * Its lumen carries nothing else on any day it runs, not even between its doses. The reading is the strict one: a lumen is
   * kept for nutrition, blood or sampling so that it is not opened for anything else, and that does not end with the bag.
   * On a 7-day chart the lumen is free on days when the infusion does not run, else a weekly bag would hold it all week.
   */
  readonly dedicated: boolean;
  /** Days it runs, 0 the first day of the chart; absent means every day. */
  readonly daysActive?: readonly number[];
  /** Whether its label or local table lets it run through a peripheral cannula. */
  readonly peripheral: Maybe<boolean>;
  /** Whether the drug also exists by mouth, so that the question can be asked. */
  readonly oralForm: Maybe<boolean>;
}

export const COMPATIBILITIES = ["compatible", "incompatible", "unknown"] as const;
export type Compatibility = (typeof COMPATIBILITIES)[number];

/** One row of the local Y-site table, by infusion id. A pair without a row is unknown, and unknown never shares. */
export interface CompatibilityPair {
  readonly first: string;
  readonly second: string;
  readonly known: Compatibility;
}

/** A timed drug chart: one day that repeats, or a week. Lumens and new times are the same on every day a dose runs. */
export interface DrugChart {
  readonly horizonDays: 1 | 7;
  readonly infusions: readonly Infusion[];
  readonly compatibility: readonly CompatibilityPair[];
  /** Doses move in whole steps, for example 15 minutes. */
  readonly stepMin: Minute;
  /** Labelled flow of one lumen. Where it is known, infusions that share must stay within it together. */
  readonly lumenFlowMlPerHour: Maybe<MillilitrePerHour>;
}

/** Clock times of an infusion's doses, in minutes after midnight; a continuous infusion has one, at midnight. */
export function dosesOf(timing: Timing, minutesInDay: number): readonly number[] {
  if (timing.kind === "continuous") return [0];
  if (timing.kind === "at clock times") return timing.startsMin;
  return Array.from(
    { length: Math.round(minutesInDay / timing.everyMin) },
    (_, index) => (timing.firstMin + index * timing.everyMin) % minutesInDay,
  );
}
