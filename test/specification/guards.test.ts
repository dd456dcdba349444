import { describe, expect, test } from "vitest";
import {
  armMap,
  checkTable,
  curveGuards,
  curvesOf,
  hazardModel,
  rateGuards,
  rateModel,
  timeToEvent,
  type AuditTable,
  type LineRow,
} from "../../src/audit/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import {
  curveLines,
  hazardLines,
  mapLines,
  monitorLines,
  poolLines,
  rateModelLines,
  sparseLines,
} from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";
import { occlusion } from "../../reference/by-hand/count/ward-figures.ts";

// What has to be said before a figure of few lines is read (common practice, no source; events per factor: Peduzzi 1996).

const rules = {
  limits: countLimitsFrom(defaultPolicyTable),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
};
const march = { from: on("2025-03-01"), to: on("2025-04-01"), fromOffset: 0, toOffset: 0 };
const tableOf = (lines: readonly LineRow[]): AuditTable => ({ asOf: timed("2025-06-01T12:00Z"), referrals: [], lines });
const ten = (count: number, more: (at: number) => Partial<LineRow> = () => ({})): readonly LineRow[] =>
  Array.from({ length: count }, (_, at) =>
    plainRow(`L${at}`, "2025-03-03T12:00Z", removed("2025-03-13T12:00Z"), { patient: `P${at}`, ...more(at) }),
  );
const blocked = { events: [happened("occlusion", "2025-03-08")] };
const followedOf = (lines: readonly LineRow[]) =>
  timeToEvent(checkTable(tableOf(lines), rules.limits, rules.surveillance).facts, occlusion);

describe("a rate of a period", () => {
  test("says when one person has more than a fifth of the events, with both counts and the limit", () => {
    // three lines of one person, placed an hour after each other
    const lines = ten(20, (at) =>
      at < 6 ? { ...blocked, placed: timed(`2025-03-03T1${at}:00Z`), patient: at < 3 ? "one" : `P${at}` } : {},
    );
    const guards = rateGuards(tableOf(lines), occlusion, march, rules);
    expect(guards).toEqual([{ guard: "eventsOfOnePerson", part: 3, whole: 6, limit: 0.2 }]);
    expect(sparseLines(guards)[0]).toBe(
      "One person has 3 of 6 events. Read that story first. The limit is 20 in 100 (common practice, your policy).",
    );
  });

  test("says when one line has more than a fifth of the days, counted inside the period alone", () => {
    const long = plainRow("long", "2025-01-01T12:00Z", removed("2025-05-01T12:00Z"), { patient: "long" });
    // 31 days of March beside 10 lines of 10 days: 31 of 131, though 120 days in all
    expect(rateGuards(tableOf([...ten(10), long]), occlusion, march, rules)).toEqual([
      { guard: "daysOfOneLine", part: 31, whole: 131, limit: 0.2 },
    ]);
    expect(rateGuards(tableOf([...ten(13), long]), occlusion, march, rules)).toEqual([]);
  });

  test("is quiet on one event, for that is always one person's", () => {
    expect(rateGuards(tableOf(ten(9, (at) => (at === 0 ? blocked : {}))), occlusion, march, rules)).toEqual([]);
  });
});

describe("a curve", () => {
  test("of fewer than five events tells counts and no chance, and what a doubling would take", () => {
    const followed = followedOf(ten(40, (at) => ({ lumens: at < 20 ? 1 : 2, ...(at < 4 ? blocked : {}) })));
    const curves = curvesOf(followed, "lumens", [7], rules.limits);
    const said = curveLines(curves).join("\n");
    expect(said).toContain("4 events: too few for a chance by day. The least is 5");
    expect(said).not.toContain("By day 7");
    // Schoenfeld 1983, ratio 2, equal groups, power 0.8: 65.35
    expect(curves.eventsForDoubling).toBeCloseTo(65.3456593, 6);
    expect(said).toContain("A doubling takes about 66 events to show (Schoenfeld 1983); there are 4.");
    const enough = curvesOf(followedOf(ten(40, (at) => (at < 5 ? blocked : {}))), undefined, [7], rules.limits);
    expect(curveLines(enough).join("\n")).toContain("By day 7");
  });

  test("says how many ended another way, and how many ends nobody knows", () => {
    const lines = ten(40, (at) =>
      at < 5
        ? blocked
        : at < 8
          ? { end: { kind: "removed", at: timed("2025-03-13T12:00Z"), reason: missing("not known") } }
          : {},
    );
    expect(curveGuards(followedOf(lines), rules.limits)).toEqual([
      { guard: "otherEnds", part: 32, whole: 40, limit: 0.1 },
      { guard: "unknownEnds", part: 3, whole: 40, limit: 0.05 },
    ]);
  });
});

describe("a model", () => {
  const lines = (events: number) =>
    ten(200, (at) => ({
      lumens: 1 + (at % 3),
      ageYears: 30 + (at % 50),
      ...(at % 7 === 0 && at < 7 * events ? blocked : {}),
    }));

  test("of too few events is refused, with the rule and how many factors they carry", () => {
    const answer = hazardModel(followedOf(lines(9)), ["lumens", "age"], rules.limits);
    expect(answer).toMatchObject({ kind: "too few events", events: 9, mostFactors: 1, least: 5 });
    expect(hazardLines(answer, 2).slice(0, 3)).toEqual([
      "9 events: too few for 2 factors. No ratio is told.",
      "The rule is 5 events for each factor (Peduzzi 1996, a habit and no law).",
      "Ask for 1 at most, or wait for more events.",
    ]);
    const none = hazardModel(followedOf(lines(3)), ["lumens", "age"], rules.limits);
    expect(hazardLines(none, 2)[2]).toBe("Read each event as a case.");
  });

  test("of few events says that it is penalised; of enough, that its limits are to be read", () => {
    const few = hazardModel(followedOf(lines(14)), ["lumens", "age"], rules.limits);
    expect(hazardLines(few, 2).join("\n")).toContain("14 events for 2 factors, 7 each: penalised");
    const more = hazardModel(followedOf(lines(25)), ["lumens", "age"], rules.limits);
    expect(hazardLines(more, 2).join("\n")).toContain("12.5 each: read the limits, not the ratio");
  });

  test("that parts all events from the rest says why its ratio has an end after all", () => {
    const parted = ten(120, (at) => ({ attempts: at < 40 ? 2 : 1, ...(at < 12 ? blocked : {}) }));
    const answer = hazardModel(followedOf(parted), ["attempts"], rules.limits);
    expect(answer).toMatchObject({ kind: "fitted", separated: true });
    expect(hazardLines(answer, 1).join("\n")).toContain("A factor parts all events from the rest");
  });

  test("of a rate says how many ends nobody knows, in its period alone, though the rate itself shows bounds", () => {
    const unknown = { end: { kind: "unknown", lastKnown: timed("2025-03-05T12:00Z") } } as const;
    const table = tableOf([
      ...ten(40, (at) => ({ lumens: 1 + (at % 2), ...(at < 12 ? unknown : {}), ...(at > 19 ? blocked : {}) })),
      plainRow("before", "2025-01-03T12:00Z", removed("2025-01-13T12:00Z"), { patient: "before" }),
    ]);
    const guards = rateGuards(table, occlusion, march, rules, "model");
    expect(guards).toEqual([{ guard: "unknownEnds", part: 12, whole: 40, limit: 0.05 }]);
    expect(rateGuards(table, occlusion, march, rules)).toEqual([]);
    const answer = rateModel(table, occlusion, march, ["lumens"], rules);
    expect(rateModelLines(answer, 1, guards)[1]).toContain("Nobody knows how 12 of 40 ended.");
  });
});

describe("nothing to go by", () => {
  test("a map of no line says that nothing can be drawn, and not that lines show no difference", () => {
    const table = tableOf(ten(3, () => ({ ...blocked, positionPercent: missing("not asked") })));
    const lines = mapLines(armMap(table, occlusion, march, "position along the arm", rules)).join("\n");
    expect(lines).toContain("0 of 3 lines used.");
    expect(lines).toContain("nothing can be drawn");
    expect(lines).not.toContain("no difference");
  });

  test("a service without an alarm has no false signal to tell of", () => {
    const monitor = { base: march, plan: { alarms: 0, monthsBetweenFalseSignals: 20 }, charts: [] };
    const lines = monitorLines(monitor as unknown as Parameters<typeof monitorLines>[0]).join("\n");
    expect(lines).toContain("No alarm is set");
    expect(lines).not.toContain("false signal");
  });

  test("a log-rank on no degree of freedom is no chance of one", () => {
    const logRank = { chiSquare: 0, degrees: 0, chance: 1, observed: [0, 0], expected: [0, 0] };
    const pooled = { measure: "occlusion", clock: occlusion.clock, groups: ["a", "b"], services: ["north"], rates: [] };
    const lines = poolLines({
      ...pooled,
      mantelHaenszel: "no events on one side",
      logRank,
      withheldRates: 4,
      withheldIntervals: 0,
    } as unknown as Parameters<typeof poolLines>[0]).join("\n");
    expect(lines).toContain("nothing could be compared");
    expect(lines).not.toContain("chance 1.000");
  });

  test("a chart that keeps no alarm does not say how soon a rise would show", () => {
    const base = { perThousand: 1.8, lower: 0.7, upper: 4, events: 6 };
    const alarm = { ratio: 2, monthsToShow: 6 };
    const plan = { base, alarm, expectedPerYear: 11, picture: "quarterly chart" };
    const chart = {
      measure: "occlusion",
      plan,
      spans: [],
      sinceLast: 10,
      noAlarm: "base too small and no target agreed",
    };
    const saidOf = (one: object) =>
      monitorLines({
        base: march,
        plan: { alarms: 1, monthsBetweenFalseSignals: 20 },
        charts: [one],
      } as unknown as Parameters<typeof monitorLines>[0]).join("\n");
    expect(saidOf(chart)).toContain("No alarm is kept");
    expect(saidOf(chart)).not.toContain("to show");
    expect(saidOf({ ...chart, noAlarm: undefined })).toContain("about 6 months to show");
  });
});
