import { describe, expect, test } from "vitest";
import {
  armMap,
  audit,
  checkTable,
  hazardModel,
  lineTableCsv,
  periodOf,
  QUALITY_RULES,
  readMeasures,
  timeToEvent,
  type AuditTable,
  type LineRow,
  type QualityCode,
  type QualityIssue,
  type RowChecks,
} from "../../src/audit/index.ts";
import { readLineTable } from "../../src/contract/index.ts";
import { hazardLines } from "../../src/language/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { dated, happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";

// Rules of a register's quality with their severity: stop, out of every figure; hold, out of the figures it touches; warn,
// shown and kept. Common practice, no source, where none is named.

const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
const none = missing("not asked");
const checks = (some: Partial<RowChecks>): Pick<LineRow, "checks"> => ({
  checks: { insideCm: none, weightKg: none, replaces: none, timeKnownTo: none, writtenAfter: none, ...some },
});
const tableOf = (lines: readonly LineRow[], more: Partial<AuditTable> = {}): AuditTable => ({
  asOf: timed("2025-07-15T12:00Z"),
  lines,
  referrals: [],
  ...more,
});
const check = (table: AuditTable) => checkTable(table, limits, surveillance);
const issue = (table: AuditTable, code: QualityCode): QualityIssue | undefined =>
  check(table).issues.find((one) => one.code === code);
const told = (code: QualityCode, ...lines: readonly LineRow[]) => issue(tableOf(lines), code)?.lines;
const figure = (table: AuditTable, id: string) => {
  const read = readMeasures();
  if (read.kind === "faults") throw new Error("measures");
  const period = periodOf(table, on("2025-01-01"), on("2025-07-01"));
  const found = audit(table, read.measures, period, [], { limits, surveillance }).figures.find(
    ({ measure }) => measure === id,
  );
  if (!found) throw new Error(id);
  return found;
};
const line = (key: string, from: string, to: string, more: Partial<LineRow> = {}) =>
  plainRow(key, from, removed(to), more);

test("every rule has the severity it is published with here", () => {
  expect(QUALITY_RULES).toMatchObject({
    T7: "hold",
    T9: "stop",
    E6: "warn",
    L3: "warn",
    C2: "hold",
    C3: "warn",
    C4: "warn",
    D1: "hold",
    D2: "hold",
    D3: "warn",
    T10: "stop",
  });
});

describe("T2, also before birth", () => {
  test("when a line was placed before its person was born, then the row is stopped", () => {
    expect(told("T2", line("a", "2025-03-01", "2025-03-05", { ageYears: -1 }))).toEqual(["a"]);
  });
});

describe("T7, times known to the month", () => {
  const coarse = line("a", "2025-03-01", "2025-05-01", checks({ timeKnownTo: "month" }));
  const exact = line("b", "2025-03-01", "2025-03-11", checks({ timeKnownTo: "day" }));
  test("when days are counted, then its sixty-one days are not among them, and the line is still one that was placed", () => {
    expect(told("T7", coarse, exact)).toEqual(["a"]);
    const table = tableOf([coarse, exact]);
    expect(figure(table, "line-days-exact").numerator).toBe(10);
    expect(check(table).facts).toHaveLength(2);
  });
});

describe("T5, in for very long", () => {
  // inverse of the empirical distribution, Hyndman and Fan 1996, definition 1 (from memory); R quantile(type = 1)
  const dwells = (count: number) =>
    Array.from({ length: count }, (_, at) => line(`l${at}`, "2025-01-01", at === 0 ? "2025-04-11" : "2025-01-11"));
  test("when one of a thousand stays longer than all others, then it is asked about; of 999 it is not", () => {
    expect(told("T5", ...dwells(1000))).toEqual(["l0"]);
    expect(told("T5", ...dwells(999))).toBeUndefined();
  });
  test("when all stay equally long, then none is; over a year each is, however many do", () => {
    expect(told("T5", ...dwells(1200).slice(1))).toBeUndefined();
    const long = (key: string) => line(key, "2024-01-01", "2025-02-01");
    expect(told("T5", long("a"), long("b"), line("c", "2025-01-01", "2025-01-11"))).toEqual(["a", "b"]);
  });
});

describe("T10, known here before it was placed", () => {
  const found = (key: string, placed: string, known: string, out: string) =>
    plainRow(key, placed, removed(out), {
      knownFrom: known.length > 10 ? timed(known) : dated(known),
      positionShare: 0.5,
      events: [happened("occlusion", "2025-03-14T12:00Z")],
    });
  test("when it is known a minute or a day before, then the row is in no figure; on the same date or later it is", () => {
    const [minute, day] = [
      found("a", "2025-03-04T10:00Z", "2025-03-04T09:59Z", "2025-03-20T10:00Z"),
      found("b", "2025-03-04", "2025-03-03", "2025-03-20"),
    ];
    const [same, onDate, later] = [
      found("c", "2025-03-04T10:00Z", "2025-03-04T10:00Z", "2025-03-20T10:00Z"),
      found("d", "2025-03-04T10:00Z", "2025-03-04", "2025-03-20T10:00Z"),
      found("e", "2025-03-04", "2025-03-10", "2025-03-20"),
    ];
    expect(told("T10", minute, day, same, onDate, later)).toEqual(["a", "b"]);
    const { facts } = check(tableOf([minute, day, same, onDate, later]));
    expect(facts.map(({ row }) => row.key)).toEqual(["c", "d", "e"]);
  });

  test("when days, the arm map and a curve read the same lines, then all three start where the service first knew them", () => {
    const table = tableOf([
      found("early", "2025-03-04T10:00Z", "2025-03-01T10:00Z", "2025-03-24T10:00Z"),
      found("late", "2025-03-04T10:00Z", "2025-03-09T10:00Z", "2025-03-24T10:00Z"),
    ]);
    const read = readMeasures();
    if (read.kind === "faults") throw new Error("measures");
    const occlusion = read.measures.find(({ id }) => id === "occlusion") as (typeof read.measures)[number];
    const period = periodOf(table, on("2025-01-01"), on("2025-07-01"));
    // 9 to 24 March at ten: fifteen days, whoever counts them; before the rule the first line gave 23 of its own 20
    expect(figure(table, "line-days-exact").numerator).toBe(15);
    const map = armMap(table, occlusion, period, "position along the arm", { limits, surveillance });
    expect(map.cells.reduce((sum, { lineDays }) => sum + lineDays, 0)).toBe(15);
    const { follow } = timeToEvent(check(table).facts, occlusion);
    expect([...follow.entry]).toEqual([5]);
    expect(follow.exit[0]).toBeCloseTo(10 + 2 / 24, 9);
  });
});

describe("T9, dead and alive", () => {
  const died = (key: string, from: string, to: string) => plainRow(key, from, removed(to, "died"), { patient: "p" });
  test("when a line is placed after the death of its person, then neither row is in any figure", () => {
    const table = tableOf([
      died("a", "2025-03-01", "2025-03-10"),
      line("b", "2025-04-01", "2025-04-09", { patient: "p" }),
    ]);
    expect(issue(table, "T9")?.lines).toEqual(["a", "b"]);
    expect(check(table).facts).toEqual([]);
  });
  test("when a line is still in place, or came out for another reason later, then it contradicts the death", () => {
    const inPlace = plainRow(
      "b",
      "2025-03-01",
      { kind: "in place", lastKnown: timed("2025-07-15T12:00Z") },
      { patient: "p" },
    );
    expect(told("T9", died("a", "2025-03-01", "2025-03-10"), inPlace)).toEqual(["a", "b"]);
    const later = line("c", "2025-03-01", "2025-03-12", { patient: "p" });
    expect(told("T9", died("a", "2025-03-01", "2025-03-10"), later)).toEqual(["a", "c"]);
  });
  test("when both lines came out at the death, or the other one before it, then nothing is told", () => {
    expect(told("T9", died("a", "2025-03-01", "2025-03-10"), died("b", "2025-03-02", "2025-03-11"))).toBeUndefined();
    const before = line("c", "2025-02-01", "2025-03-10", { patient: "p" });
    expect(told("T9", died("a", "2025-03-01", "2025-03-10"), before)).toBeUndefined();
  });
});

describe("E6, one infection written at two lines", () => {
  const infected = (key: string, from: string, paired: boolean) =>
    line(key, from, "2025-03-20", {
      patient: "p",
      events: [happened("infection", "2025-03-12", { clinical: true, surveillance: true, pairedCulture: paired })],
    });
  test("when neither has a paired culture, then it counts once, for the line longest in place", () => {
    const table = tableOf([infected("a", "2025-03-05", false), infected("b", "2025-03-02", false)]);
    expect(issue(table, "E6")?.lines).toEqual(["a", "b"]);
    expect(figure(table, "infection-clinical").numerator).toBe(1);
    const kept = check(table).facts.filter(({ events }) => events.some(({ outside }) => !outside));
    expect(kept.map(({ row }) => row.key)).toEqual(["b"]);
  });
  test("when the shorter line has the paired culture, then it is that line's", () => {
    const table = tableOf([infected("a", "2025-03-05", true), infected("b", "2025-03-02", false)]);
    const kept = check(table).facts.filter(({ events }) => events.some(({ outside }) => !outside));
    expect(kept.map(({ row }) => row.key)).toEqual(["a"]);
  });
});

describe("L3, replaced and not meeting", () => {
  const old = (to: string) => plainRow("old", "2025-03-01T09:00Z", removed(to, "replaced"), { patient: "p" });
  const next = (from: string, more: Partial<LineRow> = {}) =>
    plainRow("new", from, removed("2025-04-20T09:00Z"), { patient: "p", ...more });
  test.each([
    ["a day apart", "2025-03-11T10:00Z", undefined],
    ["more than a day apart", "2025-03-11T10:01Z", ["old", "new"]],
    ["six hours together", "2025-03-10T04:00Z", undefined],
    ["longer than six hours together", "2025-03-10T03:59Z", ["old", "new"]],
  ])("when they are %s", (_, from, keys) => {
    expect(told("L3", old("2025-03-10T10:00Z"), next(from))).toEqual(keys);
  });
  test("when the new line names the one it replaced, then the link decides, whatever the reason of removal", () => {
    const first = line("old", "2025-03-01", "2025-03-10", { patient: "p" });
    expect(told("L3", first, next("2025-03-20T10:00Z", checks({ replaces: "old" })))).toEqual(["old", "new"]);
    expect(told("L3", first, next("2025-03-20T10:00Z"))).toBeUndefined();
  });
  test("when no later line of the person is in the table, then nothing is told", () => {
    expect(told("L3", old("2025-03-10T10:00Z"))).toBeUndefined();
  });
});

describe("C2, what cannot be together", () => {
  const row = (more: Partial<LineRow>) => line("a", "2025-03-01", "2025-03-09", more);
  test.each([
    ["three lumens in 3 Fr", { lumens: 3, sizeFr: 3 }],
    ["a line of 1.9 Fr and 55 cm", { sizeFr: 1.9, ...checks({ insideCm: 55 }) }],
    ["60 kg at 2 years", { ageYears: 2, ...checks({ weightKg: 60 }) }],
    ["3.5 kg at 40 years", { ageYears: 40, ...checks({ weightKg: 3.5 }) }],
    ["400 kg", checks({ weightKg: 400 })],
  ] as const)("%s", (_, more) => {
    expect(told("C2", row(more))).toEqual(["a"]);
  });
  test.each([
    ["one lumen in 1.9 Fr", { lumens: 1, sizeFr: 1.9 }],
    ["three lumens in 5 Fr", { lumens: 3, sizeFr: 5 }],
    ["a newborn of 0.5 kg", { ageYears: 0, ...checks({ weightKg: 0.5 }) }],
    ["a man of 180 kg", { ageYears: 50, ...checks({ weightKg: 180 }) }],
  ] as const)("but not %s", (_, more) => {
    expect(told("C2", row(more))).toBeUndefined();
  });
  test("when size and lumens are held, then both are not known and the line is in every other figure", () => {
    const [facts] = check(tableOf([row({ lumens: 3, sizeFr: 3, attempts: 1 })])).facts;
    expect(facts?.row).toMatchObject({
      lumens: { missing: "not known" },
      sizeFr: { missing: "not known" },
      attempts: 1,
    });
  });
});

test("C3: an indication rewritten after the event is told, and the row kept", () => {
  const table = tableOf([line("a", "2025-03-01", "2025-03-09", checks({ writtenAfter: ["indication"] }))]);
  expect(issue(table, "C3")).toMatchObject({ severity: "warn", lines: ["a"] });
  expect(check(table).facts).toHaveLength(1);
});

describe("C4, missing too often", () => {
  const many = (count: number, more: (at: number) => Partial<LineRow>) =>
    Array.from({ length: count }, (_, at) => line(`m${at}`, "2025-03-01", "2025-03-20", more(at)));
  test("when six of a hundred lack a value it is told, when five do it is not, and what nobody writes is never told", () => {
    const lacking = (gone: number) => tableOf(many(100, (at) => (at < gone ? {} : { attempts: 1 })));
    expect(issue(lacking(6), "C4")).toMatchObject({ about: ["attempts 6 of 100"] });
    expect(issue(lacking(6), "C4")?.lines).toHaveLength(6);
    expect(issue(lacking(5), "C4")).toBeUndefined();
    expect(issue(lacking(100), "C4")).toBeUndefined();
  });
  // R 4.2.2, chisq.test(matrix(c(200 - g, 1720 + g, g, 80 - g), 2), correct = FALSE): g = 14, p = 0.0225; g = 15, p = 0.0078
  test("when 80 of 2,000 lack it, and 14 or 15 of these had an event as 200 of all had, then chance decides", () => {
    const split = (gone: number) =>
      tableOf(
        many(2000, (at) => ({
          ...(at < gone || at >= 1920 + gone ? {} : { attempts: 1 }),
          events: at < 200 ? [happened("occlusion", "2025-03-05")] : [],
        })),
      );
    expect(issue(split(14), "C4")).toBeUndefined();
    expect(issue(split(15), "C4")?.about).toEqual(["attempts 80 of 2000"]);
  });
});

describe("D1 and D2, the ward's own days", () => {
  // two lines of one person at once count one: ten days at noon
  const lines = [
    line("a", "2025-03-01T09:00Z", "2025-03-11T09:00Z", { ward: "Elm", patient: "p" }),
    line("b", "2025-03-02T09:00Z", "2025-03-11T09:00Z", { ward: "Elm", patient: "p" }),
    line("c", "2025-03-02T09:00Z", "2025-03-21T09:00Z", { ward: "Elm", setting: "home" }),
  ];
  const month = (patientDays: number | undefined, manualDays?: number): AuditTable =>
    tableOf(lines, {
      wardMonths: [
        {
          key: "w",
          ward: "Elm",
          month: dated("2025-03-01"),
          patientDays: patientDays ?? missing("not known"),
          manualDays: manualDays ?? none,
          sampledWithLine: none,
          sampledAll: none,
        },
      ],
    });
  test("when a ward's patients had fewer days than those of them with a line, or nobody wrote them, then D1", () => {
    expect(issue(month(9), "D1")).toMatchObject({ about: ["Elm 2025-03"], lines: ["a", "b"] });
    expect(issue(month(undefined), "D1")).toMatchObject({ about: ["Elm 2025-03"] });
    expect(issue(month(10), "D1")).toBeUndefined();
  });
  test("when the count by hand is farther off than 5 %, then D2", () => {
    expect(issue(month(300, 10), "D2")).toBeUndefined();
    expect(issue(month(300, 9), "D2")).toMatchObject({ severity: "hold", about: ["Elm 2025-03"] });
  });
  test("when no month of a ward is given, then nothing is asked of it", () => {
    expect(issue(tableOf(lines), "D1")).toBeUndefined();
  });
  test("the months come in the file of the lines", () => {
    const text = `row,line_key,placed_at,ward,patient_days,manual_line_days\nward month,w,2025-03-01,Elm,9,9\n`;
    const read = readLineTable(text, timed("2025-07-15T12:00Z"));
    expect(read.kind === "table" && read.table.wardMonths).toMatchObject([
      { ward: "Elm", patientDays: 9, manualDays: 9 },
    ]);
  });
});

describe("D3, a month in which nobody wrote", () => {
  const long = line("a", "2025-03-03", "2025-06-10");
  test("when a line was in through April and May and nothing was written, then both months are told", () => {
    expect(issue(tableOf([long]), "D3")).toMatchObject({ about: ["2025-04", "2025-05"], lines: ["a"] });
  });
  test("when one line came out in April, then only May is; and a month with no line open is none", () => {
    expect(issue(tableOf([long, line("b", "2025-03-20", "2025-04-02")]), "D3")?.about).toEqual(["2025-05"]);
    expect(issue(tableOf([line("b", "2025-03-20", "2025-03-30")]), "D3")).toBeUndefined();
  });
});

test("what the rules read goes out with the table and comes in again", () => {
  const row = line("a", "2025-03-01", "2025-03-09", {
    ...checks({ insideCm: 41.5, weightKg: 72, replaces: "z", timeKnownTo: "day", writtenAfter: ["vein", "ward"] }),
  });
  const read = readLineTable(lineTableCsv([row]), timed("2025-07-15T12:00Z"));
  expect(read.kind === "table" && read.table.lines[0]?.checks).toEqual(row.checks);
});

describe("a factor missing too often for a model of several", () => {
  const lines = Array.from({ length: 200 }, (_, at) =>
    line(`h${at}`, "2025-03-01", `2025-03-${10 + (at % 20)}`, {
      ageYears: 30 + (at % 50),
      ...(at % 100 < 21 ? {} : { lumens: 1 + (at % 2) }),
      events: at % 3 === 0 ? [happened("occlusion", `2025-03-0${2 + (at % 7)}`)] : [],
    }),
  );
  const followed = () => {
    const read = readMeasures();
    const measure = read.kind === "measures" ? read.measures.find(({ id }) => id === "occlusion") : undefined;
    return timeToEvent(check(tableOf(lines)).facts, measure as NonNullable<typeof measure>);
  };
  test("when a fifth and more lack it, then no model of two is made, in words with its numbers; alone it is", () => {
    const answer = hazardModel(followed(), ["lumens", "age"], limits);
    expect(answer).toMatchObject({ kind: "too much missing", factors: [{ factor: "lumens", missing: 42, of: 200 }] });
    expect(hazardLines(answer, 2)[0]).toContain("lumens in 42 of 200 lines");
    expect(hazardModel(followed(), ["lumens"], limits).kind).toBe("fitted");
    expect(hazardModel(followed(), ["age"], limits).kind).toBe("fitted");
  });
});
