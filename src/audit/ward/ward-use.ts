import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { figureForm, incidenceRate, ratioOfSums, type FigureForm, type Limits } from "../../core/incidence/index.ts";
import { day } from "../../core/quantity/index.ts";
import { audit, firstOfMonth, neverWritten, periodOf, type AuditRules, type Period } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import { mergesRepeats, type Measure } from "../measure/index.ts";
import { NEVER } from "../packed/index.ts";
import { checkColumns, type WardMonthDays } from "../quality/index.ts";

/** Surveillance infections over the days that the ward itself counted. */
export interface WardRate {
  readonly measure: string;
  readonly events: number;
  /** Infections of which nobody said whether they count. */
  readonly mayCount: number;
  readonly lineDays: number;
  readonly perThousand: number;
  readonly limits: Limits;
  /** Few events lead with their limits, none with the upper one alone. */
  readonly form: FigureForm;
}

/** How much a ward used lines over the months it counted. */
export interface WardUse {
  readonly ward: string;
  readonly everyCentralLine: boolean;
  /** Months that give a share, of those that somebody wrote. */
  readonly months: number;
  readonly written: number;
  /** How the line-days of those months were counted, in months; and the days sampled. */
  readonly counted: {
    readonly hand: number;
    readonly sample: number;
    readonly machine: number;
    /** Undefined where a sampled month does not say it. */
    readonly sampledDays: number | undefined;
  };
  readonly lineDays: number;
  readonly patientDays: number;
  readonly utilisation: number | undefined;
  /** From how much the months differ; undefined for too few of them. */
  readonly limits: Limits | undefined;
  /** Undefined where the days are not those of this service's lines, or only the record counted them. */
  readonly rates: readonly WardRate[] | undefined;
}

export interface WardsUse {
  readonly wards: readonly WardUse[];
  /** Wards whose lines were in during the period, and of which nobody wrote a month. */
  readonly notCounted: readonly string[];
  readonly level: number;
  readonly monthsForLimits: number;
}

/**
 * Device utilisation and surveillance infections ward by ward, over the months that the wards counted.
 *   utilisation = sum of line-days / sum of patient-days, limits by `ratioOfSums` over months
 *   rate = 1000 x infections of those months / line-days that the ward counted, exact limits
 * Units: share of one; per 1000 line-days counted at one hour of the day, a person once. Holds: events by their own day and
 * by the ward of placing; wards that counted every central line have no rate, for the record has not all their infections.
 * Source: CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4, "Rates and Ratios"; Garwood 1936.
 * Example: test/specification/ward-use.test.ts.
 */
export function wardUse(
  table: AuditTable,
  months: readonly WardMonthDays[],
  measures: readonly Measure[],
  period: Period,
  rules: AuditRules,
): WardsUse {
  const { level, wardMonthsForLimits: monthsForLimits, fewestForEstimate } = rules.limits;
  const silent = new Set(neverWritten(table, measures));
  const asked = measures.filter(
    ({ id, numerator }) => numerator.count === "events" && mergesRepeats(numerator.flag) && !silent.has(id),
  );
  const eventsOf = eventsByMonth(table, asked, months, rules);
  const groups = new Map<string, WardMonthDays[]>();
  for (const one of months) {
    const key = JSON.stringify([one.ward, one.everyCentralLine]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const wards = [...groups.values()].map((own): WardUse => {
    const { ward, everyCentralLine } = own[0] as WardMonthDays;
    const shared = own.filter(({ utilisation }) => typeof utilisation === "number");
    const spans = shared.map(({ lineDays, patientDays }) => ({ part: lineDays, whole: patientDays as number }));
    const sum = (of: "part" | "whole") => spans.reduce((all, span) => all + span[of], 0);
    const [lineDays, patientDays] = [sum("part"), sum("whole")];
    const by = (how: WardMonthDays["countedBy"]) => shared.filter(({ countedBy }) => countedBy === how);
    const sampled = by("sample").map(({ sampled: sample }) => sample?.days);
    return {
      ward,
      everyCentralLine,
      months: shared.length,
      written: own.length,
      counted: {
        hand: by("hand").length,
        sample: sampled.length,
        machine: by("machine").length,
        sampledDays: sampled.some((days) => days === undefined)
          ? undefined
          : sampled.reduce<number>((all, days) => all + (days as number), 0),
      },
      lineDays,
      patientDays,
      utilisation: patientDays > 0 ? lineDays / patientDays : undefined,
      limits: spans.length >= Math.max(2, monthsForLimits) && patientDays > 0 ? ratioOfSums(spans, level) : undefined,
      rates: everyCentralLine
        ? undefined
        : ratesOf([...by("hand"), ...by("sample")], asked, eventsOf, { level, fewestForEstimate }),
    };
  });
  return { wards, notCounted: notCounted(table, months, period, rules), level, monthsForLimits };
}

type EventsOf = (
  measure: string,
  month: string,
  ward: string,
) => { readonly events: number; readonly mayCount: number };

/** Each month of the wards is counted once, whatever the number of wards. */
function eventsByMonth(
  table: AuditTable,
  measures: readonly Measure[],
  months: readonly WardMonthDays[],
  rules: AuditRules,
): EventsOf {
  const found = new Map<string, { readonly events: number; readonly mayCount: number }>();
  const names = measures.length === 0 ? [] : new Set(months.map(({ month }) => month));
  for (const month of names) {
    const first = `${month}-01` as CivilDate;
    const { figures } = audit(table, measures, periodOf(table, first, firstOfMonth(first, 1)), ["ward"], rules);
    for (const { measure, stratum, numerator, missing } of figures)
      if (stratum?.by === "ward")
        found.set(`${measure} ${month} ${stratum.value}`, { events: numerator, mayCount: missing.count });
  }
  return (measure, month, ward) => found.get(`${measure} ${month} ${ward}`) ?? { events: 0, mayCount: 0 };
}

function ratesOf(
  counted: readonly WardMonthDays[],
  measures: readonly Measure[],
  eventsOf: EventsOf,
  { level, fewestForEstimate }: Pick<AuditRules["limits"], "level" | "fewestForEstimate">,
): readonly WardRate[] | undefined {
  const lineDays = counted.reduce((all, one) => all + one.lineDays, 0);
  if (!(lineDays > 0)) return undefined;
  return measures.map(({ id }) => {
    const own = counted.map(({ month, ward }) => eventsOf(id, month, ward));
    const events = own.reduce((all, one) => all + one.events, 0);
    const { perThousand, lower, upper } = incidenceRate(
      { events, days: day(lineDays), clock: "line-days that the ward counted" },
      level,
      "exact",
    );
    const mayCount = own.reduce((all, one) => all + one.mayCount, 0);
    return {
      measure: id,
      events,
      mayCount,
      lineDays,
      perThousand,
      limits: { lower, upper },
      form: figureForm(events, fewestForEstimate),
    };
  });
}

function notCounted(
  table: AuditTable,
  months: readonly WardMonthDays[],
  { from, to }: Period,
  { limits, surveillance }: AuditRules,
): readonly string[] {
  const { facts, stopped } = checkColumns(table, limits, surveillance);
  const { placedOn, endedOn, lines } = facts;
  const { codes, words } = lines.words.ward;
  const [opens, closes] = [dayNumber(from), dayNumber(to)];
  const seen = new Set<number>();
  for (let line = 0; line < lines.count; line += 1) {
    const [placed, ended, ward] = [placedOn[line] as number, endedOn[line] as number, codes[line] as number];
    if (stopped[line] === 1 || ward < 0 || placed === NEVER || placed >= closes) continue;
    if (ended === NEVER || ended >= opens) seen.add(ward);
  }
  const told = new Set(months.map(({ ward }) => ward));
  return [...seen]
    .map((code) => words[code] as string)
    .filter((ward) => !told.has(ward))
    .sort();
}
