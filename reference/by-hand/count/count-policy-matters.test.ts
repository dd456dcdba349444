import { describe, expect, test } from "vitest";
import {
  armMap,
  audit,
  checkTable,
  curveGuards,
  curvesOf,
  exportLines,
  figuresForOutside,
  hazardModel,
  learningCurve,
  lotsToActOn,
  monitorPlan,
  monitorService,
  monthPack,
  periodOf,
  rateGuards,
  timeToEvent,
  wardFunnel,
  wardMonthDays,
  wardUse,
  type AuditTable,
  type FollowedLines,
  type LineRow,
  type Measure,
} from "../../../src/audit/index.ts";
import type { PolicyRow, PolicyValue } from "../../../src/core/reason/index.ts";
import {
  countLimitsFrom,
  defaultPolicyTable,
  denominatorRules,
  tableWithValues,
  type PolicyTable,
} from "../../../src/policy/index.ts";
import { isCountRow } from "../need-keys.ts";
import { day, measures, surveillance, table as year } from "../../independent/count/counted-year.ts";
import { missing } from "../../../src/core/missing/index.ts";
import { dated, happened, plainRow, removed, timed } from "./plain-row.ts";
import { wardFigures } from "./ward-figures.ts";

/** Every limit of counting is moved, each way where it has two, and some answer must move with it. */
const inPlace = (key: string, seen: string): LineRow =>
  plainRow(key, "2025-09-01T10:00+01:00", { kind: "in place", lastKnown: timed(`${seen}T10:00+01:00`) });
const stay = (key: string, more: Partial<LineRow>): LineRow =>
  plainRow(key, "2025-03-03T10:00+01:00", removed("2025-03-20T10:00+01:00"), more);

const special: readonly LineRow[] = [
  ...[0, 1, 2, 17, 18, 39, 90, 91].map((ageYears) => stay(`age ${ageYears}`, { ageYears, diagnosis: "nutrition" })),
  ...(["lower third of the cava", "cavo-atrial junction", "right atrium"] as const).map((tipPlace) =>
    stay(`tip ${tipPlace}`, { tipPlace }),
  ),
  ...[44.5, 45.5].map((eGfr) => stay(`filtration ${eGfr}`, { eGfr })),
  ...["2025-03-27", "2025-03-28"].map((on) => stay(`clot ${on}`, { events: [happened("thrombosis", on)] })),
  // the table stands at 1 January 2026: 90 and 91 days before it
  inPlace("seen 90", "2025-10-03"),
  inPlace("seen 91", "2025-10-02"),
  ...["2025-12-02T22:00+01:00", "2025-12-03T22:00+01:00"].map((out) =>
    plainRow(`long ${out}`, "2024-12-03T10:00+01:00", removed(out)),
  ),
  ...[0.04, 1.5].map((writtenRatio) => stay(`ratio ${writtenRatio}`, { writtenRatio })),
  ...[0.0498, 0.0502].map((off) =>
    stay(`off ${off}`, { sizeFr: 4, veinDiameterMm: 4, writtenRatio: (1 / 3) * (1 + off) }),
  ),
];
const table: AuditTable = { ...year, lines: [...year.lines, ...special] };
// the table stands at 1 January 2026: 30 and 31 days before their date
const lots = ["2026-01-30", "2026-01-31", "2026-02-01"].map((date) => ({
  key: date,
  expiresOn: day(date),
  received: 3,
  discarded: 0,
  recalled: false,
}));
const all = measures();
const named = (id: string) => all.find((measure) => measure.id === id) as Measure;
const period = periodOf(table, day("2025-01-01"), day("2026-01-01"));
const base = periodOf(table, day("2024-07-01"), day("2025-01-01"));
const disguise = { keyOf: (kind: string, name: string) => `${kind} ${name}`, shiftDaysOf: () => 30 };

const march = periodOf(table, day("2025-03-01"), day("2025-04-01"));
/** Two lines of one person, both blocked. */
const one: AuditTable = {
  ...year,
  lines: ["2025-03-03T10:00+01:00", "2025-03-04T10:00+01:00"].map((placed, at) =>
    plainRow(`one ${at}`, placed, removed("2025-03-20T10:00+01:00"), {
      patient: "one",
      events: [happened("occlusion", "2025-03-10")],
    }),
  ),
};
const uneven = Array.from({ length: 10 }, (_, at) => ({
  ward: `w${at}`,
  events: at === 0 ? 60 : at % 2 === 0 ? 4 : 20,
  days: 1500,
}));

/** The first lines that hold so many events. */
function withEvents(followed: FollowedLines, events: number): FollowedLines {
  let seen = 0;
  const stop = followed.follow.end.findIndex((end) => (seen += Number(end === 1)) === events) + 1;
  const { entry, exit, end } = followed.follow;
  return {
    ...followed,
    follow: { entry: entry.slice(0, stop), exit: exit.slice(0, stop), end: end.slice(0, stop) },
    lines: followed.lines.slice(0, stop),
  };
}

/** Five, six and seven months of three wards: the limits of a share begin with one of them. */
function wardsOf(rules: Parameters<typeof wardUse>[4]): object {
  const none = missing("not asked");
  const months = [5, 6, 7].flatMap((many) =>
    Array.from({ length: many }, (_, at) => ({
      key: `${many} ${at}`,
      ward: `${many}`,
      month: dated(`2025-0${at + 1}-01`),
      patientDays: 400,
      manualDays: 80 + at,
      sampledWithLine: none,
      sampledAll: none,
    })),
  );
  const table: AuditTable = { asOf: timed("2025-12-15T12:00Z"), lines: [], referrals: [], wardMonths: months };
  const period = periodOf(table, day("2025-01-01"), day("2026-01-01"));
  return wardUse(table, wardMonthDays(table, period, rules, denominatorRules), measures(), period, rules);
}

function answers(policy: PolicyTable): string {
  const limits = countLimitsFrom(policy);
  const rules = { limits, surveillance };
  const report = audit(table, all, period, ["ward", "ratio band", "age band"], rules);
  const { facts } = checkTable(table, limits, surveillance);
  const followed = timeToEvent(facts, named("occlusion"));
  const expecting = [2.5, 3.5, 9.5, 10.5, 29.5, 30.5];
  return JSON.stringify([
    report,
    figuresForOutside(report, all, limits.smallestShown),
    curvesOf(
      followed,
      "lumens",
      Array.from({ length: 150 }, (_, at) => at),
      limits,
    ),
    [9, 11, 19, 21].map((events) => hazardModel(withEvents(followed, events), ["lumens", "age"], limits)),
    monitorPlan(
      [
        ...expecting.map((events) => ({
          name: `${events}`,
          baseEvents: 40,
          baseDays: 10_000,
          daysPerYear: events * 250,
        })),
        ...[19, 20].map((events) => ({ name: `${events}`, baseEvents: events, baseDays: 5000, daysPerYear: 5000 })),
      ],
      limits,
    ),
    monitorService(table, [named("infection-clinical")], base, period, rules, { "infection-clinical": 1 }),
    monthPack(table, all, day("2025-11-01"), rules).funnels,
    [8, 9, 10].map((wards) => wardFunnel(wardFigures(uneven.slice(0, wards)), named("occlusion"), limits)),
    rateGuards(one, named("occlusion"), march, rules),
    wardsOf(rules),
    curveGuards(followed, limits),
    lotsToActOn(lots, table, limits).expiring,
    learningCurve(facts, "S1", limits),
    exportLines(table, disguise, limits),
    armMap(table, named("occlusion"), period, "position along the arm", rules),
    armMap(table, named("occlusion"), period, "catheter over vein", rules),
  ]);
}

const CHOSEN: Readonly<Record<string, readonly PolicyValue[]>> = {
  "count.good-tip": [["cavo-atrial junction"], ["lower third of the cava", "cavo-atrial junction", "right atrium"]],
  "count.watch-ratio": [1.5, 3],
  "count.signal-chance": [0.00001, 0.05],
  "count.learning-rates": [
    [0.11, 0.2],
    [0.1, 0.21],
  ],
  "count.funnel-shares": [
    [0.002, 0.025, 0.975, 0.999],
    [0.001, 0.025, 0.975, 0.99],
  ],
  "count.funnel-least": [10],
  "count.funnel-winsorise": [0, 0.3],
  "count.map-least-days": [0, 2000],
};

function movedValues(key: string, value: PolicyValue): readonly PolicyValue[] {
  const chosen = CHOSEN[key];
  if (chosen) return chosen;
  if (typeof value === "number") return Number.isInteger(value) ? [value + 1, value - 1] : [value * 1.01, value * 0.99];
  return (value as readonly number[]).flatMap((_, index) =>
    [1, -1].map((step) => (value as readonly number[]).map((one, place) => (place === index ? one + step : one))),
  );
}

describe("every limit of counting decides something", () => {
  const before = answers(defaultPolicyTable);
  for (const [key, row] of Object.entries(defaultPolicyTable as Record<string, PolicyRow>)) {
    if (!isCountRow(key)) continue;
    test(key, () => {
      for (const value of movedValues(key, row.value)) {
        const moved = tableWithValues(defaultPolicyTable, { [key]: value });
        expect(answers(moved) === before, `${key} moved to ${String(value)} changes nothing`).toBe(false);
      }
    });
  }
});
