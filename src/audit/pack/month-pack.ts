import { addDays, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { lineDays, localDate, NOON } from "../../core/dwell/index.ts";
import { poissonSignalCount } from "../../core/distribution/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { ServiceMemory } from "../../register/index.ts";
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
  type StratumName,
} from "../figure/index.ts";
import { twoCases, type TwoCases } from "../case/index.ts";
import type { AuditTable } from "../line/index.ts";
import { COMPARED, type Measure } from "../measure/index.ts";
import { checkTable } from "../quality/index.ts";
import { lotsToActOn, type LotRow, type PackLots } from "./lot-list.ts";
import { monitorService, type FrozenBase, type ServiceMonitor } from "../monitor/index.ts";
import type { MonthAction } from "./month-action.ts";
import { wardFunnel, type WardFunnel } from "../ward/index.ts";
import { beginningOf, type Beginning } from "./beginning.ts";
import { declinedIn, overridesOf } from "./month-lists.ts";
import { packGuards, type PackGuards } from "./pack-guards.ts";
import { actionOfRecord, basesInForce, timeMemory, type TimeMemory } from "./time-memory.ts";

export interface MonthFigure {
  readonly now: Figure;
  readonly before: Figure | undefined;
  readonly direction: Direction | undefined;
  /** The whole table holds no word of it: then no rate, no limit and no direction is told. */
  readonly neverWritten: boolean;
}

/** Of how many lines the answer that fills a list is not known: an empty list is not "none" then. */
export interface ListGap {
  readonly notKnown: number;
  readonly given: number;
}

/** Events needed in the month before a rise by the policy's ratio would be noticed: does the month hold enough to see? */
export interface EnoughToSee {
  readonly measure: string;
  readonly expectedInMonth: number;
  readonly events: number;
}

export interface ListedLine {
  readonly line: string;
  readonly why: readonly string[];
}

/** What the service adds: last month's action, agreed rates per 1000 days where its base is small, and its lots. */
export interface PackExtras {
  readonly lots?: readonly LotRow[];
  readonly action?: MonthAction;
  readonly targets?: Readonly<Record<string, number>>;
  /** What the record keeps of the service's own numbers: bases, signals, actions, changes. */
  readonly memory?: ServiceMemory;
}

export interface MonthPack {
  readonly month: Period;
  readonly before: Period;
  readonly asOf: CivilDate;
  readonly action: (MonthAction & { readonly moved: MonthFigure | undefined }) | undefined;
  /** Page 1: the month in sentences. */
  readonly figures: readonly MonthFigure[];
  readonly issues: AuditReport["issues"];
  readonly linesUsed: number;
  readonly linesGiven: number;
  readonly declinedInstead: readonly { readonly instead: string; readonly referrals: number }[];
  readonly enough: readonly EnoughToSee[];
  /** Page 2: time. Undefined where there is no base before the year. */
  readonly monitor: ServiceMonitor | undefined;
  /** In its place: what can be said before there is a base. */
  readonly beginning: Beginning | undefined;
  /** Undefined for a table that came without a record. */
  readonly memory: TimeMemory | undefined;
  /** Page 3: where and with what, over the twelve months that end with the month. */
  readonly year: AuditReport;
  /** Of the watched events; none where fewer than two wards have days, or where nothing happened. */
  readonly funnels: readonly WardFunnel[];
  /** What must be said before a rate of these pages is read. */
  readonly guards: PackGuards;
  /** Page 4: people and things to do, as the table stood. */
  readonly noOwner: readonly ListedLine[];
  readonly overdue: readonly ListedLine[];
  readonly overrides: readonly { readonly code: string; readonly lines: readonly string[] }[];
  readonly unknownEnds: readonly ListedLine[];
  readonly lowFiltration: readonly ListedLine[];
  readonly shortStays: readonly ListedLine[];
  /** What the lists of page 4 do not know. */
  readonly gaps: Readonly<Record<"noOwner" | "overdue" | "overrides" | "lowFiltration" | "shortStays", ListGap>>;
  /** Undefined where no lots came with the lines: then nothing may be read of them. */
  readonly lots: PackLots | undefined;
  /** For the sheet of their own. */
  readonly cases: TwoCases;
}

const SPLIT: ReadonlySet<string> = new Set([...COMPARED, "any-complication", "first-attempt", "short-stay"]);
const PAGE_THREE: readonly StratumName[] = [
  "ward",
  "size",
  "lumens",
  "third",
  "ratio band",
  "vein",
  "side",
  "attempts",
];
const [MONTHS, YEAR] = [12, 365.25];

/**
 * The numbers of the monthly pack: the month against the twelve before it, time, where and with what, people and things.
 * No percentage without its numbers, no bar without its denominator: every figure carries both.
 * Units: those of the figures. Holds: `month` any day of the month asked. Source: as `audit`, `monitorService`,
 * `wardFunnel`, `rateGuards` and `beginningOf`. Example: docs/how-to/count-a-month.md.
 */
export function monthPack(
  table: AuditTable,
  measures: readonly Measure[],
  month: CivilDate,
  rules: AuditRules,
  { action: typed, targets = {}, memory, lots }: PackExtras = {},
): MonthPack {
  const from = firstOfMonth(month, 0);
  const to = firstOfMonth(month, 1);
  const now = periodOf(table, from, to);
  const before = periodOf(table, firstOfMonth(month, -MONTHS), from);
  const yearFrom = firstOfMonth(month, 1 - MONTHS);
  const year = periodOf(table, yearFrom, to);
  const report = audit(table, measures, now, [], rules);
  const earlier = new Map(audit(table, measures, before, [], rules).figures.map((figure) => [figure.measure, figure]));
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  const unwritten = new Set(neverWritten(table, measures));
  const figures = report.figures.map((figure): MonthFigure => {
    const past = earlier.get(figure.measure);
    const measure = byId.get(figure.measure) as Measure;
    const silent = unwritten.has(figure.measure);
    const direction = past && !silent ? directionOf(figure, past, measure, rules.limits.level) : undefined;
    return { now: figure, before: past, direction, neverWritten: silent };
  });
  const overYear = splitYear(table, measures, year, rules);
  const lines = overYear.figures;
  const wholeOf = (id: string) => lines.find(({ measure, stratum }) => measure === id && !stratum);
  const gap = (id: string): ListGap => {
    const { given, used } = wholeOf(id) ?? { given: 0, used: 0 };
    return { notKnown: given - used, given };
  };
  const keysOf = (id: string) => new Set(wholeOf(id)?.lines ?? []);
  const listed = (id: string, why: (key: string) => readonly string[]): readonly ListedLine[] =>
    [...keysOf(id)].map((line) => ({ line, why: why(line) }));
  const rowOf = new Map(table.lines.map((row) => [row.key, row]));
  const action = typed ?? actionOfRecord(memory, from);
  const bases = basesInForce(memory, measures, to);
  const monitor = monitorOf(table, measures, year, rules, targets, bases);
  const written = measures.filter(({ id }) => !unwritten.has(id));
  const watched = written.filter(({ id }) => COMPARED.has(id));
  return {
    month: now,
    before,
    asOf: localDate(table.asOf),
    action: action && { ...action, moved: figures.find((figure) => figure.now.measure === action.measure) },
    figures,
    issues: report.issues,
    linesUsed: report.linesUsed,
    linesGiven: report.linesGiven,
    declinedInstead: declinedIn(table, now),
    enough: measures.flatMap((measure) => enoughFor(measure, earlier.get(measure.id), now, rules)),
    monitor,
    beginning: monitor ? undefined : beginningOf(table, measures, now, rules),
    memory: memory && timeMemory(memory, monitor, bases, year),
    year: overYear,
    funnels: watched.flatMap((measure) => wardFunnel(overYear.figures, measure, rules.limits) ?? []),
    guards: packGuards(
      table,
      { written, watched },
      { month: now, before, year, base: monitor?.base },
      PAGE_THREE,
      rules,
    ),
    noOwner: listed("no-owner", (key) => wardOf(rowOf.get(key)?.ward)),
    overdue: listed("overdue-care", (key) => {
      const items = rowOf.get(key)?.overdueCare;
      return items && isKnown(items) ? items : [];
    }),
    overrides: overridesOf(table, keysOf("overrides")),
    unknownEnds: listed("unknown-end", (key) => {
      const end = rowOf.get(key)?.end;
      return end?.kind === "unknown" ? [localDate(end.lastKnown)] : [];
    }),
    lowFiltration: listed("low-filtration", (key) => wardOf(rowOf.get(key)?.ward)),
    shortStays: listed("short-stay", (key) => {
      const end = rowOf.get(key)?.end;
      return end?.kind === "removed" && isKnown(end.reason) ? [end.reason] : [];
    }),
    gaps: {
      noOwner: gap("no-owner"),
      overdue: gap("overdue-care"),
      overrides: gap("overrides"),
      lowFiltration: gap("low-filtration"),
      shortStays: gap("short-stay"),
    },
    lots: lots && lotsToActOn(lots, table, rules.limits),
    cases: twoCases(checkTable(table, rules.limits, rules.surveillance).facts, table, now, rules.limits),
  };
}

/** Every measure over the year, and those of page 3 split; splitting all of them would cost time for nothing printed. */
function splitYear(table: AuditTable, measures: readonly Measure[], year: Period, rules: AuditRules): AuditReport {
  const whole = audit(table, measures, year, [], rules);
  const shown = measures.filter(({ id }) => SPLIT.has(id));
  const split = audit(table, shown, year, PAGE_THREE, rules);
  return { ...whole, figures: [...whole.figures, ...split.figures.filter(({ stratum }) => stratum)] };
}

const wardOf = (ward: AuditTable["lines"][number]["ward"] | undefined): readonly string[] =>
  ward !== undefined && isKnown(ward) ? [ward] : [];

/** The fewest events in the month that the year before would make surprising. */
function enoughFor(
  measure: Measure,
  before: Figure | undefined,
  now: Period,
  { limits }: AuditRules,
): readonly EnoughToSee[] {
  if (!COMPARED.has(measure.id) || !before?.value || !before.denominator) return [];
  const share = (dayNumber(now.to) - dayNumber(now.from)) / YEAR;
  const expectedInMonth = before.numerator * share;
  if (!(expectedInMonth > 0)) return [];
  return [
    { measure: measure.id, expectedInMonth, events: poissonSignalCount(expectedInMonth, (1 - limits.level) / 2) },
  ];
}

/** The year watched by what lies before it; none when the table does not reach back. */
function monitorOf(
  table: AuditTable,
  measures: readonly Measure[],
  year: Period,
  rules: AuditRules,
  targets: NonNullable<PackExtras["targets"]>,
  bases: Readonly<Record<string, FrozenBase>>,
): ServiceMonitor | undefined {
  const first = table.lines
    .flatMap(({ placed }) => (placed ? [dayNumber(localDate(placed))] : []))
    .reduce((least, on) => Math.min(least, on), Infinity);
  const opens = dayNumber(year.from);
  if (!(first < opens)) return undefined;
  const start = addDays(year.from, first - opens);
  const watched = measures.filter(({ id }) => COMPARED.has(id));
  const base = periodOf(table, start, year.from);
  const stays = checkTable(table, rules.limits, rules.surveillance).facts.flatMap(({ stay }) => (stay ? [stay] : []));
  const known = (period: Period) => lineDays(stays, period, "exact line-days", NOON).days > 0;
  return known(base) && known(year) ? monitorService(table, watched, base, year, rules, targets, bases) : undefined;
}
