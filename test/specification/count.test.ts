import { describe, expect, test } from "vitest";
import {
  audit,
  checkTable,
  exportLines,
  figuresForOutside,
  LINE_COLUMNS,
  lineTableSchema,
  monitorService,
  monthPack,
  periodOf,
  QUALITY_RULES,
  readMeasures,
  type AuditTable,
  type Figure,
  type LineRow,
  type Measure,
} from "../../src/audit/index.ts";
import { readLineTable } from "../../src/contract/index.ts";
import { measureWords, packPages, qualityWords, sayFigure } from "../../src/language/index.ts";
import { dated, happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";
import { generatedYear } from "../../reference/generated-year.ts";
import { houseMeasures, limits, rules, surveillance } from "../../reference/house-rules.ts";

// How a service is counted: given a table, when a month is asked, then what stands beside the number. Day counts and the
// repeat frame as CDC/NHSN, Patient Safety Component Manual, ch. 2 and 4 (from memory); the rest common practice, no source.

const measures = (): readonly Measure[] => houseMeasures;
const asOf = timed("2025-05-15T12:00Z");
const tableOf = (...lines: LineRow[]): AuditTable => ({ asOf, lines, referrals: [] });
const march = { from: on("2025-03-01"), to: on("2025-04-01"), fromOffset: 0, toOffset: 0 };
const figure = (table: AuditTable, id: string, by: readonly "ward"[] = []): Figure => {
  const found = audit(table, measures(), march, by, rules).figures.find((one) => one.measure === id);
  if (!found) throw new Error(id);
  return found;
};
const yes = { clinical: true, surveillance: true };

describe("given the register of the four day counts", () => {
  // the seven lines whose days are worked by hand for four clocks: 37.568750 exact, 43 calendar
  const row = (key: string, patient: string, placed: string, out: string | undefined) =>
    plainRow(
      key,
      placed,
      out === undefined ? { kind: "in place", lastKnown: timed("2025-04-01T00:00Z") } : removed(out),
      { patient },
    );
  const seven = tableOf(
    row("A", "1", "2025-03-03T09:30Z", "2025-03-10T16:45Z"),
    row("B", "2", "2025-03-04T14:00Z", "2025-03-04T22:00Z"),
    row("C", "3", "2025-03-05T08:00Z", "2025-03-06T07:59Z"),
    row("D", "4", "2025-03-28T11:15Z", "2025-04-03T10:00Z"),
    row("E", "5", "2025-03-06T10:00Z", "2025-03-20T12:00Z"),
    row("F", "5", "2025-03-15T10:00Z", "2025-03-25T09:00Z"),
    row("G", "6", "2025-03-30T15:20Z", undefined),
  );

  test("when March is counted, then each clock has its own days and its own name", () => {
    expect(figure(seven, "line-days-exact").numerator).toBeCloseTo(37.56875, 9);
    expect(figure(seven, "line-days-calendar").numerator).toBe(43);
    const measure = measures().find(({ id }) => id === "infection-surveillance") as Measure;
    // nobody wrote one: its nought is over days of a named clock all the same
    expect(sayFigure(figure(seven, measure.id), measure)).toContain("none written in 43 calendar line-days, both ends");
  });
});

describe("given an infection", () => {
  const infected = (day: string, more: Partial<LineRow> = {}) =>
    plainRow("A", "2025-03-03", removed("2025-03-10"), { events: [happened("infection", day, yes)], ...more });

  test("when it falls on line day 2, then it is clinical and not surveillance, and a rule says so", () => {
    const table = tableOf(infected("2025-03-04"));
    expect(figure(table, "infection-clinical").numerator).toBe(1);
    expect(figure(table, "infection-surveillance").numerator).toBe(0);
    expect(checkTable(table, limits, surveillance).issues.map(({ code }) => code)).toContain("E3");
  });

  test("when it comes the day after removal it counts, and the day after that it does not", () => {
    expect(figure(tableOf(infected("2025-03-11")), "infection-surveillance").numerator).toBe(1);
    const late = tableOf(infected("2025-03-12"));
    expect(figure(late, "infection-surveillance").numerator).toBe(0);
    expect(checkTable(late, limits, surveillance).issues.map(({ code }) => code)).toContain("E2");
  });

  test("when it repeats on day 14 of the frame it is the same, on day 15 another; also across lines of one person", () => {
    const twice = (second: string) =>
      tableOf(
        plainRow("A", "2025-03-01", removed("2025-03-09"), {
          patient: "p",
          events: [happened("infection", "2025-03-03", yes)],
        }),
        plainRow("B", "2025-03-09", removed("2025-03-30"), {
          patient: "p",
          events: [happened("infection", second, yes)],
        }),
      );
    expect(figure(twice("2025-03-16"), "infection-surveillance").numerator).toBe(1);
    expect(figure(twice("2025-03-17"), "infection-surveillance").numerator).toBe(2);
  });

  test("when nobody said whether the definition is met, then it is neither counted nor dropped: the bounds hold it", () => {
    // another line's infection was judged, long before: the service does ask
    const asked = plainRow("Z", "2024-03-03", removed("2024-03-10"), {
      events: [happened("infection", "2024-03-08", yes)],
    });
    const open = figure(
      tableOf(infected("2025-03-08", { events: [happened("infection", "2025-03-08", { clinical: true })] }), asked),
      "infection-surveillance",
    );
    expect(open).toMatchObject({ numerator: 0, form: "upper limit only", missing: { count: 1 } });
    expect(open.missing.bounds?.lower).toBe(0);
    expect(open.missing.bounds?.upper).toBeCloseTo(1000 / 8, 9);
  });
});

describe("given a line whose end nobody knows", () => {
  const lost = tableOf(
    plainRow("A", "2025-03-03T12:00Z", removed("2025-03-13T12:00Z"), { events: [happened("occlusion", "2025-03-05")] }),
    plainRow("B", "2025-03-03T12:00Z", { kind: "unknown", lastKnown: timed("2025-03-08T12:00Z") }),
  );

  test("when a rate is asked, then its days stop where it was last seen, and the bounds go to the end of the month", () => {
    const rate = figure(lost, "occlusion");
    expect(rate.denominator).toBe(15);
    expect(rate.missing.count).toBe(1);
    // one event over 10 days and 28.5 days to the end of March; two events over 15
    expect(rate.missing.bounds?.lower).toBeCloseTo(1000 / 38.5, 9);
    expect(rate.missing.bounds?.upper).toBeCloseTo(2000 / 15, 9);
    expect(figure(lost, "in-place").numerator).toBe(0);
    expect(figure(lost, "unknown-end")).toMatchObject({ numerator: 1, denominator: 2 });
  });
});

describe("given a reason of removal that names an event nobody wrote down", () => {
  test("when clots are counted, then it is no clot and may be one", () => {
    // a clot was written once, long before: the service does ask
    const asked = plainRow("Z", "2024-03-03", removed("2024-03-10"), {
      events: [happened("thrombosis", "2024-03-08")],
    });
    const clots = figure(tableOf(plainRow("A", "2025-03-03", removed("2025-03-13", "clot")), asked), "thrombosis");
    expect(clots).toMatchObject({ numerator: 0, missing: { count: 1 } });
    expect(clots.missing.bounds?.upper).toBeCloseTo(1000 / 10, 9);
  });
});

describe("given an unknown end after the month", () => {
  test("when the month is counted, then it was seen in place and hides nothing", () => {
    const seen = tableOf(
      plainRow("A", "2025-03-03T12:00Z", { kind: "unknown", lastKnown: timed("2025-04-08T12:00Z") }),
    );
    expect(figure(seen, "occlusion").missing.count).toBe(0);
    expect(figure(seen, "in-place").numerator).toBe(1);
  });
});

describe("given a record with faults", () => {
  test("when it is checked, then each rule names its lines, and stopped rows are in no figure", () => {
    const table = tableOf(
      plainRow("back", "2025-03-10", removed("2025-03-03")),
      plainRow("later", "2026-03-10", removed("2026-03-20")),
      plainRow("never", undefined, removed("2025-03-03")),
      plainRow("short", "2025-03-10T10:00Z", removed("2025-03-10T10:00Z")),
      plainRow("long", "2024-01-10", removed("2025-03-20")),
      plainRow("unseen", "2025-01-10", { kind: "in place", lastKnown: dated("2025-01-12") }),
      plainRow("why", "2025-03-01", removed("2025-03-09", { missing: "not known" })),
      plainRow("early", "2025-03-05", removed("2025-03-09"), { events: [happened("occlusion", "2025-03-01")] }),
      plainRow("claims", "2025-03-05", removed("2025-03-09", "clot")),
      plainRow("odd", "2025-03-05", removed("2025-03-09"), { sizeFr: 6, veinDiameterMm: 1 }),
      plainRow("twice", "2025-03-05T10:00Z", removed("2025-03-09"), {
        patient: "p",
        side: "left arm",
        vein: "basilic",
      }),
      plainRow("again", "2025-03-05T10:00Z", removed("2025-03-09"), {
        patient: "p",
        side: "left arm",
        vein: "basilic",
      }),
      plainRow("beside", "2025-03-07T10:00Z", removed("2025-03-19"), {
        patient: "p",
        side: "left arm",
        vein: "basilic",
      }),
    );
    const { issues, facts } = checkTable(table, limits, surveillance);
    const found = Object.fromEntries(issues.map(({ code, lines }) => [code, lines]));
    expect(found).toMatchObject({
      T1: ["back"],
      T2: ["later"],
      T3: ["never"],
      T4: ["short"],
      T5: ["long"],
      T6: ["unseen"],
      T8: ["why"],
      E1: ["early"],
      E5: ["claims"],
      C1: ["odd"],
      L2: ["again"],
      L1: ["twice", "beside"],
    });
    expect(facts.map(({ row }) => row.key)).not.toContain("back");
    expect(facts.map(({ row }) => row.key)).toContain("early");
    expect(Object.keys(qualityWords).sort()).toEqual(Object.keys(QUALITY_RULES).sort());
  });
});

describe("given figures that leave the service", () => {
  const lines = (ward: string, number: number, blocked: number) =>
    Array.from({ length: number }, (_, at) =>
      plainRow(`${ward}${at}`, "2025-03-02", removed("2025-03-20"), {
        ward,
        inserter: `S${at % 2}`,
        events: at < blocked ? [happened("occlusion", "2025-03-05")] : [],
      }),
    );
  const table = tableOf(...lines("A", 20, 2), ...lines("B", 20, 8), ...lines("C", 20, 9));
  const report = audit(table, measures(), march, ["ward", "inserter"], rules);
  const outside = figuresForOutside(report, measures(), limits.smallestShown);
  const shown = (id: string) =>
    outside.figures
      .filter(({ measure }) => measure === id)
      .map(({ stratum, numerator }) => [stratum?.value, numerator]);

  test("when a cell is small, then it and another are withheld, and no key of a line goes out", () => {
    expect(shown("occlusion")).toEqual([
      [undefined, 19],
      ["A", "withheld"],
      ["B", "withheld"],
      ["C", 9],
    ]);
    expect(outside.withheld).toBeGreaterThan(0);
    expect(JSON.stringify(outside)).not.toContain('"A0"');
  });

  test("when all complications together would give it back, then they are withheld too", () => {
    expect(
      shown("any-complication")
        .filter(([, count]) => count === "withheld")
        .map(([ward]) => ward),
    ).toEqual(["A", "B"]);
  });

  test("when it was split by person, then that split does not leave", () => {
    expect(outside.figures.some(({ stratum }) => stratum?.by === "inserter")).toBe(false);
  });
});

describe("given a base too small to trust", () => {
  test("when the service is watched, then no alarm is kept until a target is agreed", () => {
    const reading = readLineTable(generatedYear(3, 500), timed("2026-01-01T00:00Z"));
    if (reading.kind === "faults") throw new Error("faults");
    const thrombosis = measures().filter(({ id }) => id === "thrombosis");
    const [base, now] = [
      periodOf(reading.table, on("2024-07-01"), on("2025-01-01")),
      periodOf(reading.table, on("2025-01-01"), on("2026-01-01")),
    ];
    const alone = monitorService(reading.table, thrombosis, base, now, rules).charts[0];
    expect(alone).toMatchObject({ noAlarm: "base too small and no target agreed", watch: undefined });
    const agreed = monitorService(reading.table, thrombosis, base, now, rules, { thrombosis: 1.5 }).charts[0];
    expect(agreed?.watch?.points.length).toBe(365);
    expect(() => monitorService(reading.table, thrombosis, now, base, rules)).toThrow("the base comes first");
  });
});

describe("given a month with last month's action", () => {
  test("when the pack is made, then the action comes first with what it moved, and every share has its numbers", () => {
    const reading = readLineTable(generatedYear(11, 600), timed("2026-01-01T00:00Z"));
    if (reading.kind === "faults") throw new Error("faults");
    const action = {
      what: "New connectors on ward A.",
      owner: "MK",
      dueOn: on("2025-12-15"),
      measure: "occlusion",
      done: true,
    };
    const pack = monthPack(reading.table, measures(), on("2025-12-01"), rules, { action, targets: { occlusion: 5 } });
    expect(pack.action?.moved?.now.measure).toBe("occlusion");
    expect(["higher", "lower", "cannot tell"]).toContain(pack.action?.moved?.direction);
    const pages = packPages(pack, measures(), [], rules.limits);
    expect(pages.map(({ title }) => title)).toEqual([
      "The month",
      "Time",
      "Where and with what",
      "People and things to do",
      "Two cases in depth",
    ]);
    expect(pages[0]?.lines[0]).toBe("Last month's action: New connectors on ward A.");
    for (const line of pages
      .flatMap(({ lines }) => lines)
      .filter((one) => /\d[ \u202f]%/u.test(one) && !/band|Not known/.test(one)))
      expect(line).toMatch(/ in \d|exact|chance/);
    const wards = pack.funnels.find(({ measure }) => measure === "occlusion")?.wards ?? [];
    const whole = pack.year.figures.find(({ measure, stratum }) => measure === "occlusion" && !stratum);
    expect(wards.reduce((sum, { events }) => sum + events, 0)).toBe(whole?.numerator);
    expect(wards.reduce((sum, { expected }) => sum + expected, 0)).toBeCloseTo(whole?.numerator ?? Number.NaN, 9);
  });
});

describe("given measures in files", () => {
  test("when they are read, then each has words, a reason, a source and a day of review", () => {
    for (const { id } of measures()) expect(measureWords[id], id).toBeDefined();
  });

  test("when a file is wrong, then every fault is told and nothing is taken", () => {
    const bad = [
      {
        id: "X",
        numerator: { count: "events", event: "rain", flag: "any" },
        denominator: "none",
        clock: "none",
        colour: 1,
      },
    ];
    const reading = readMeasures([bad, 7]);
    if (reading.kind === "measures") throw new Error("taken");
    expect(reading.faults.map(({ field }) => field)).toEqual(
      expect.arrayContaining([
        "id",
        "numerator.event",
        "denominator",
        "clock",
        "colour",
        "why",
        "source",
        "author",
        "howKnown",
        "reviewOn",
        "",
      ]),
    );
  });
});

describe("given a line table as a file", () => {
  test("when ten cells are wrong, then ten faults are told with their rows", () => {
    const text = [
      "line_key,patient_key,placed_at,end_kind,end_at,size_fr,lumens,side,owned,events",
      "A,p,2025-02-30,removed,2025-03-09,4,1,left arm,yes,",
      "B,p,2025-03-01,gone,2025-03-09,40,1.5,left,maybe,",
      ",p,2025-03-01,removed,2025-03-09,4,1,left arm,yes,",
      "D,,2025-03-01,removed,2025-03-09,4,1,left arm,yes,",
      "E,p,2025-03-01,removed,,4,1,left arm,yes,",
      "F,p,2025-03-01,removed,2025-03-09,4,1,left arm,yes,rain@2025-03-04",
      "F,p,2025-03-01,removed,2025-03-09,4,1,left arm,yes,occlusion@soon",
    ].join("\n");
    const reading = readLineTable(text, asOf);
    if (reading.kind === "table") throw new Error("taken");
    expect(reading.faults.map(({ path, code }) => `${path}: ${code}`)).toEqual([
      "row 2, placed_at: no-such-date",
      "row 3, end_kind: not-in-list",
      "row 3, size_fr: out-of-range",
      "row 3, lumens: wrong-type",
      "row 3, side: not-in-list",
      "row 3, owned: not-in-list",
      "row 4, line_key: missing-field",
      "row 5, patient_key: missing-field",
      "row 6, end_at: missing-field",
      "row 7, events: not-in-list",
      "row 8, events: no-such-date",
    ]);
  });

  test("when the same line stands twice, or a column is strange, then both are told", () => {
    const twice = readLineTable("line_key,patient_key,placed_at\nA,p,2025-03-01\nA,p,2025-03-02", asOf);
    expect(twice).toMatchObject({ kind: "faults", faults: [{ path: "row 3, line_key", code: "twice" }] });
    const strange = readLineTable("line_key,colour\nA,blue", asOf);
    expect(strange).toMatchObject({ faults: [{ code: "unknown-field" }, { path: 'row 1, column "placed_at"' }] });
  });
});

describe("given an export without identity", () => {
  const before = readLineTable(generatedYear(5, 300), timed("2026-01-01T00:00Z"));
  if (before.kind === "faults") throw new Error("faults");
  const shifts = new Map<string, number>();
  const disguise = {
    keyOf: (kind: string, name: string) =>
      `${kind.slice(0, 2)}${Array.from(name).reduce((sum, c) => (sum * 31 + (c.codePointAt(0) ?? 0)) % 1e9, 7)}`,
    shiftDaysOf: (patient: string) => {
      shifts.set(patient, shifts.get(patient) ?? 1 + ((shifts.size * 37) % 150));
      return shifts.get(patient) ?? 0;
    },
  };
  const { csv, rows, rare } = exportLines(before.table, disguise, limits);
  const after = readLineTable(csv, timed("2027-01-01T00:00Z"));

  test("when it is read back, then every dwell and every event is where it was", () => {
    if (after.kind === "faults") throw new Error(JSON.stringify(after.faults.slice(0, 3)));
    expect(rows).toBe(300);
    const all = (table: AuditTable) => {
      const wide = { from: on("2024-01-01"), to: on("2027-01-01"), fromOffset: 0, toOffset: 0 };
      return audit(table, measures(), wide, ["lumens"], rules).figures;
    };
    const pick = (figures: readonly Figure[]) =>
      figures
        .filter(({ measure }) =>
          ["occlusion", "thrombosis", "infection-clinical", "first-attempt", "short-stay"].includes(measure),
        )
        .map(({ measure, stratum, numerator, denominator }) => [
          measure,
          stratum?.value,
          numerator,
          Number(denominator?.toFixed(6)),
        ]);
    expect(pick(all(after.table))).toEqual(pick(all(before.table)));
  });

  test("when it is searched, then no key and no person's date is in it, and the old are one group", () => {
    expect(csv).not.toMatch(/(^|,)(L\d+|P\d+|S\d)(,|$)/m);
    const ages = after.kind === "table" ? after.table.lines.map(({ ageYears }) => ageYears) : [];
    expect(Math.max(...ages.filter((age) => typeof age === "number"))).toBe(90);
    expect(rare.length).toBeGreaterThan(0);
    expect(lineTableSchema().fields.map(({ name }) => name)).toEqual(LINE_COLUMNS.map(({ name }) => name));
  });

  test("when a cell begins like a formula, then a spreadsheet will not run it", () => {
    const row = plainRow("A", "2025-03-01", removed("2025-03-09"), { ward: "=1+1" });
    const same = { keyOf: (_: string, name: string) => name, shiftDaysOf: () => 3 };
    expect(exportLines({ lines: [row] }, same, limits).csv).toContain("'=1+1");
  });
});
