import type { CivilDate } from "../../core/calendar/index.ts";
import type { Window } from "../../core/dwell/index.ts";
import type { FigureForm, Limits } from "../../core/incidence/index.ts";
import type { Measure } from "../measure/index.ts";
import type { RowEventKind } from "../line/index.ts";
import type { QualityIssue } from "../quality/index.ts";
import type { StratumName } from "./stratum.ts";

/** A half-open reporting window of local dates: an event on the last date belongs to the next one. */
export type Period = Window;

export type IntervalName =
  | "exact Poisson"
  | "exact binomial"
  | "none: days of one line hang together"
  | "none: a count";

/**
 * One number with everything that must stand beside it. Nothing here is a percentage or a rate without its parts.
 */
export interface Figure {
  readonly measure: Measure["id"];
  /** Undefined for the whole service. */
  readonly stratum: { readonly by: StratumName; readonly value: string } | undefined;
  readonly form: FigureForm | "count" | "nothing to count over" | "never written down";
  /** Of a sum over all kinds of event: the kinds the whole table never names, which are not in it. */
  readonly unwritten?: readonly RowEventKind[];
  readonly numerator: number;
  /** Lines, referrals or days of the measure's clock; undefined for a bare count. */
  readonly denominator: number | undefined;
  /** Per 1000 days, or a share of one; undefined without a denominator above zero, and of what nobody ever wrote down. */
  readonly value: number | undefined;
  readonly interval: { readonly name: IntervalName; readonly level: number; readonly limits: Limits | undefined };
  /** Rows that the figure could use, of all rows of the stratum. */
  readonly used: number;
  readonly given: number;
  /** Rows or events that may or may not belong: what they could do to the value, whatever they were. */
  readonly missing: {
    readonly count: number;
    /** The value at its least and most, and the limits of chance around both. */
    readonly bounds: Limits | undefined;
    readonly outer: Limits | undefined;
  };
  /** Part of the numerator on days that are still provisional. */
  readonly provisional: number;
  /** Keys of the lines (or referrals) in the numerator. */
  readonly lines: readonly string[];
}

export interface AuditReport {
  readonly period: Period;
  /** From this day on, figures are provisional. */
  readonly provisionalFrom: CivilDate;
  readonly figures: readonly Figure[];
  readonly issues: readonly QualityIssue[];
  /** Rows no stop rule took out, of all rows. */
  readonly linesUsed: number;
  readonly linesGiven: number;
}
