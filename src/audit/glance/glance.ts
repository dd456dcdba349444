import { addDays, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import {
  audit,
  directionOf,
  firstOfMonth,
  neverWritten,
  periodOf,
  type AuditReport,
  type AuditRules,
  type Direction,
  type Figure,
  type Period,
} from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import { COMPARED, type Measure } from "../measure/index.ts";
import type { QualityIssue } from "../quality/index.ts";

/** One rate now and in as long a time before. */
export interface GlanceRate {
  readonly measure: Measure["id"];
  readonly now: Figure;
  readonly before: Figure;
  readonly direction: Direction;
}

/** What a person in a hurry has to know of a period, in the order it is said. */
export interface Glance {
  readonly before: Period;
  /** Bare counts: lines placed, removed, handed on, in place at the end, and those whose end nobody knows. */
  readonly flow: {
    readonly placed: number;
    readonly removed: number;
    readonly handedOn: number;
    readonly inPlace: number;
    readonly lost: number;
  };
  /** The few kinds that are compared, each with its own direction; empty where nothing lies before. */
  readonly rates: readonly GlanceRate[];
  /** Event measures to which the whole table holds no word: a zero there may mean that nobody asks. */
  readonly neverWritten: readonly Measure["id"][];
  /** The record's own faults that most lines share first. */
  readonly toMend: readonly QualityIssue[];
}

const MONTHS = 12;

/**
 * A period at a glance, out of its report and of one more audit of as long a time before it.
 *   direction by the exact interval of the ratio of rates; only the few compared kinds are asked, for each more
 *   kind would add its own chance of standing apart by luck
 * Units: those of the figures. Holds: any report of `audit` for the whole service. Source: as `directionOf`; the
 * order of the sentences: common practice, no source. Example: see reference/by-hand/count/glance.test.ts.
 */
export function glance(
  report: AuditReport,
  table: AuditTable,
  measures: readonly Measure[],
  rules: AuditRules,
): Glance {
  const { period } = report;
  const before = periodOf(table, startBefore(period), period.from);
  const unwritten = new Set(neverWritten(table, measures));
  const compared = measures.filter(({ id }) => COMPARED.has(id) && !unwritten.has(id));
  const earlier = audit(table, compared, before, [], rules);
  const whole = ({ figures }: AuditReport, id: string): Figure | undefined =>
    figures.find(({ measure, stratum }) => measure === id && !stratum);
  const count = (id: string): number => whole(report, id)?.numerator ?? 0;
  return {
    before,
    flow: {
      placed: count("placed"),
      removed: count("removed"),
      handedOn: count("handed-on"),
      inPlace: count("in-place"),
      lost: count("unknown-end"),
    },
    rates: compared.flatMap((measure) => {
      const [now, past] = [whole(report, measure.id), whole(earlier, measure.id)];
      const direction = now && past && directionOf(now, past, measure, rules.limits.level);
      return direction ? [{ measure: measure.id, now, before: past, direction }] : [];
    }),
    neverWritten: [...unwritten],
    toMend: [...report.issues].sort((a, b) => b.lines.length - a.lines.length),
  };
}

/** As long a time before: whole months where the period is whole months, else as many days. */
function startBefore({ from, to }: Period): CivilDate {
  const months = monthsBetween(from, to);
  return months === undefined ? addDays(from, dayNumber(from) - dayNumber(to)) : firstOfMonth(from, -months);
}

function monthsBetween(from: CivilDate, to: CivilDate): number | undefined {
  const whole = (date: CivilDate): boolean => date === firstOfMonth(date, 0);
  const count = (date: CivilDate): number => Number(date.slice(0, 4)) * MONTHS + Number(date.slice(5, 7));
  return whole(from) && whole(to) ? count(to) - count(from) : undefined;
}
