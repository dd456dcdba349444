import { dayNumber } from "../../core/calendar/index.ts";
import {
  lineDays,
  localDate,
  NOON,
  stayDates,
  type LineClock,
  type Stay,
  type SurveillanceRule,
} from "../../core/dwell/index.ts";
import {
  figureForm,
  incidenceRate,
  proportionLimits,
  rateWithMissingEnds,
  shareWithMissingEnds,
} from "../../core/incidence/index.ts";
import { day } from "../../core/quantity/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { provisionalFrom, type AuditTable, type LineFacts, type ReferralRow } from "../line/index.ts";
import { passes, referralPasses, type Measure } from "../measure/index.ts";
import { checkTable } from "../quality/index.ts";
import { countEvents } from "./event-count.ts";
import type { AuditReport, Figure, Period } from "./figure.ts";
import { stratumOf, type StratumName } from "./stratum.ts";

/** What an audit is held to: the local limits and the surveillance rule in force. */
export interface AuditRules {
  readonly limits: CountLimits;
  readonly surveillance: SurveillanceRule;
}

interface Scene extends AuditRules {
  readonly period: Period;
  readonly opens: number;
  readonly closes: number;
  readonly provisionalDay: number;
}

/** Rows of one stratum. Referrals are split by ward only: nothing else is known of them. */
interface Part {
  readonly stratum: Figure["stratum"];
  readonly lines: readonly LineFacts[];
  readonly referrals: readonly ReferralRow[];
  /** Rows a stop rule took out; told with the whole service, for their stratum is not believed. */
  readonly stopped: number;
}

const COUNT = { name: "none: a count", limits: undefined } as const;

/**
 * Every measure over a period, for the service and for each stratum asked for: numerator, denominator, exact interval
 * with its name, rows used of rows given, what the missing could do to it, and the part that is still provisional.
 *   rate = 1000 x / T (exact Poisson limits); share = x / n (exact binomial limits)
 * Units: per 1000 days of the measure's own clock, or a share of one. Holds: period not empty, else RangeError.
 * Source: Garwood 1936, Biometrika 28:437; Clopper and Pearson 1934, Biometrika 26:404; bounds: Manski 1989, J Hum
 * Resour 24:343 (all from memory). Example: 3 events, 4,120 days: 0.73 (0.15 to 2.13).
 */
export function audit(
  table: AuditTable,
  measures: readonly Measure[],
  period: Period,
  strata: readonly StratumName[],
  rules: AuditRules,
): AuditReport {
  const checked = checkTable(table, rules.limits, rules.surveillance);
  const tail = provisionalFrom(table.asOf, rules.limits.provisionalDays);
  const scene: Scene = {
    ...rules,
    period,
    opens: dayNumber(period.from),
    closes: dayNumber(period.to),
    provisionalDay: dayNumber(tail),
  };
  const whole: Part = {
    stratum: undefined,
    lines: checked.facts.filter((line) => mayCount(line, scene)),
    referrals: table.referrals,
    stopped: table.lines.length - checked.facts.length,
  };
  const parts = [whole, ...strata.flatMap((by) => partsBy(by, whole, rules.limits))];
  return {
    period,
    provisionalFrom: tail,
    figures: measures.flatMap((measure) => parts.flatMap((part) => figureOf(measure, part, scene))),
    issues: checked.issues,
    linesUsed: checked.facts.length,
    linesGiven: table.lines.length,
  };
}

/** Far more than any window after removal or any repeat frame: no event of an older line can touch the period. */
const LONGEST_AFTER = 400;

/** Lines that could matter to the period at all; the others cost time and no figure. */
const mayCount = ({ placedOn, endedOn }: LineFacts, { opens, closes }: Scene): boolean =>
  (placedOn as number) < closes && (endedOn === undefined || endedOn >= opens - LONGEST_AFTER);

function partsBy(by: StratumName, whole: Part, limits: CountLimits): readonly Part[] {
  const lines = new Map<string, LineFacts[]>();
  const referrals = new Map<string, ReferralRow[]>();
  for (const line of whole.lines) {
    const value = stratumOf(line.row, by, limits);
    const own = lines.get(value);
    if (own) own.push(line);
    else lines.set(value, [line]);
  }
  if (by === "ward")
    for (const referral of whole.referrals) {
      const value = isKnown(referral.ward) ? referral.ward : "not known";
      referrals.set(value, [...(referrals.get(value) ?? []), referral]);
    }
  return [...new Set([...lines.keys(), ...referrals.keys()])].sort(inOrder).map((value) => ({
    stratum: { by, value },
    lines: lines.get(value) ?? [],
    referrals: referrals.get(value) ?? [],
    stopped: 0,
  }));
}

const collator = new Intl.Collator("en", { numeric: true });
/** "not known" stands last; the others by their own order. */
const inOrder = (a: string, b: string): number =>
  Number(a === "not known") - Number(b === "not known") || collator.compare(a, b);

function figureOf(measure: Measure, part: Part, scene: Scene): readonly Figure[] {
  const { numerator } = measure;
  if (numerator.count === "events") return [eventRate(measure, numerator, part, scene)];
  if (numerator.count === "days") return [dayFigure(measure, numerator.of, part, scene)];
  if (numerator.of === "referrals") {
    if (part.stratum !== undefined && part.stratum.by !== "ward") return [];
    const { test } = numerator;
    const within = part.referrals.filter(({ receivedOn }) => isWithin(dayNumber(localDate(receivedOn)), scene));
    return [
      share(measure, part, scene, {
        rows: within,
        given: within.length,
        verdict: (row) => referralPasses(test, row),
        keyOf: ({ key }) => key,
        dayOf: ({ receivedOn }) => dayNumber(localDate(receivedOn)),
      }),
    ];
  }
  const { of: set, test } = numerator;
  const rows = part.lines.filter((line) => IN_SET[set](line, scene));
  return [
    share(measure, part, scene, {
      rows,
      given: rows.length,
      verdict: (line) => passes(test, line, scene.limits),
      keyOf: ({ row }) => row.key,
      dayOf: (line) => (set === "lines removed" ? line.endedOn : line.placedOn),
    }),
  ];
}

const isWithin = (on: number | undefined, { opens, closes }: Scene): boolean =>
  on !== undefined && on >= opens && on < closes;

const IN_SET: Readonly<
  Record<
    Exclude<Extract<Measure["numerator"], { count: "lines" }>["of"], "referrals">,
    (line: LineFacts, scene: Scene) => boolean
  >
> = {
  "lines placed": ({ placedOn, row }, scene) => row.knownFrom === undefined && isWithin(placedOn, scene),
  "lines removed": ({ endedOn, row }, scene) => row.end.kind === "removed" && isWithin(endedOn, scene),
  "lines in place at the end": ({ placedOn, endedOn, row }, { closes }) =>
    row.end.kind !== "unknown" && (placedOn as number) < closes && (endedOn ?? closes) >= closes,
  "lines in the period": ({ placedOn, endedOn }, { opens, closes }) =>
    (placedOn as number) < closes && (endedOn ?? closes) >= opens,
};

function share<Row>(
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
      ? { ...COUNT, level }
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

type Days = ReturnType<typeof lineDays>;
interface PartDays {
  readonly fewest: Days;
  readonly mostDays: Days["days"];
  /** Lines that may have had a day in the period. */
  readonly mayUse: number;
}

/** Days of a part on a clock are asked for by every measure: they are counted once for each part. */
const COUNTED = new WeakMap<Part, Map<string, PartDays>>();

function daysOf(part: Part, period: Period, clock: LineClock): PartDays {
  const own = COUNTED.get(part) ?? new Map<string, PartDays>();
  COUNTED.set(part, own);
  const kept = own.get(clock);
  if (kept) return kept;
  const fewest = countDays(
    part.lines.map(({ stay }) => stay),
    period,
    clock,
  );
  // only a line of unknown end can have been in for longer
  const unknown = part.lines.filter(({ row }) => row.end.kind === "unknown");
  const seen = countDays(
    unknown.map(({ stay }) => stay),
    period,
    clock,
  );
  const longest = countDays(
    unknown.map((line) => line.longest),
    period,
    clock,
  );
  const counted = {
    fewest,
    mostDays: day(fewest.days + longest.days - seen.days),
    mayUse: fewest.linesUsed + longest.linesUsed - seen.linesUsed,
  };
  own.set(clock, counted);
  return counted;
}

const countDays = (stays: readonly (Stay | undefined)[], period: Period, clock: LineClock): Days =>
  lineDays(
    stays.filter((stay): stay is Stay => stay !== undefined),
    period,
    clock,
    NOON,
  );

function eventRate(
  measure: Measure,
  numerator: Extract<Measure["numerator"], { readonly count: "events" }>,
  part: Part,
  { limits, surveillance, period, provisionalDay, closes }: Scene,
): Figure {
  const clock = measure.clock as LineClock;
  const { counted, mayCount } = countEvents(part.lines, numerator, period, surveillance);
  const { fewest, mostDays, mayUse } = daysOf(part, period, clock);
  const seen = new Set(counted.map(({ line }) => line));
  const hidden = part.lines.filter(
    (line) => line.row.end.kind === "unknown" && (line.placedOn as number) < closes && !seen.has(line),
  );
  const level = limits.level;
  const events = counted.length;
  const days = fewest.days;
  const possible = mayCount.length + hidden.length;
  const rate = days > 0 ? incidenceRate({ events, days, clock }, level, "exact") : undefined;
  const bounds =
    days > 0 && (possible > 0 || mostDays > days)
      ? rateWithMissingEnds(
          { knownEvents: events, possibleEvents: possible, fewestDays: days, mostDays, clock },
          level,
          "exact",
        )
      : undefined;
  return {
    measure: measure.id,
    stratum: part.stratum,
    form: rate ? figureForm(events, limits.fewestForEstimate) : "nothing to count over",
    numerator: events,
    denominator: days,
    value: rate?.perThousand,
    interval: { name: "exact Poisson", level, limits: rate && { lower: rate.lower, upper: rate.upper } },
    used: fewest.linesUsed,
    given: mayUse + part.stopped,
    missing: {
      count: possible,
      bounds: bounds && { lower: bounds.lowestPerThousand, upper: bounds.highestPerThousand },
      outer: bounds?.outer,
    },
    provisional: counted.filter(({ on }) => on >= provisionalDay).length,
    lines: counted.map(({ line }) => line.row.key),
  };
}

function dayFigure(measure: Measure, of: "line days" | "idle days", part: Part, scene: Scene): Figure {
  const clock = measure.clock as LineClock;
  const level = scene.limits.level;
  if (of === "line days") {
    const { fewest: days } = daysOf(part, scene.period, clock);
    return {
      measure: measure.id,
      stratum: part.stratum,
      form: "count",
      numerator: days.days,
      denominator: undefined,
      value: undefined,
      interval: { ...COUNT, level },
      used: days.linesUsed,
      given: days.linesUsed + part.stopped,
      missing: { count: 0, bounds: undefined, outer: undefined },
      provisional: 0,
      lines: [],
    };
  }
  const touched = part.lines.filter(({ stay }) => touches(stay, scene));
  const usable = touched.filter(({ row }) => isKnown(row.idleDays));
  const days = countDays(
    usable.map(({ stay }) => stay),
    scene.period,
    clock,
  );
  const idle = usable.filter((line) => idleWithin(line, scene) > 0);
  const numerator = idle.reduce((sum, line) => sum + idleWithin(line, scene), 0);
  const empty = !(days.days > 0);
  return {
    measure: measure.id,
    stratum: part.stratum,
    form: empty ? "nothing to count over" : "count",
    numerator,
    denominator: days.days,
    value: empty ? undefined : numerator / days.days,
    interval: { name: "none: days of one line hang together", limits: undefined, level },
    used: days.linesUsed,
    given: touched.length + part.stopped,
    missing: { count: touched.length - usable.length, bounds: undefined, outer: undefined },
    provisional: 0,
    lines: idle.map(({ row }) => row.key),
  };
}

const touches = (stay: Stay | undefined, { opens, closes }: Scene): boolean => {
  if (stay === undefined) return false;
  const { first, last } = stayDates(stay);
  return first < closes && last >= opens;
};

/** Idle days run back from the end of the stay; only those inside the period count. */
function idleWithin({ row, stay }: LineFacts, { opens, closes }: Scene): number {
  if (!isKnown(row.idleDays) || !stay) return 0;
  const last = dayNumber(localDate(stay.end.kind === "removed" ? stay.end.at : stay.end.lastKnown));
  return Math.max(0, Math.min(last, closes) - Math.max(last - row.idleDays, opens));
}
