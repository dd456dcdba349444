import { describe, expect, test } from "vitest";
import {
  CASE_FIELDS,
  caseCsv,
  caseFile,
  caseOfLine,
  lineRowsFromRegister,
  type CaseStory,
  type LineRow,
} from "../../src/audit/index.ts";
import type { Instant } from "../../src/core/calendar/index.ts";
import { caseLines, sayCaseName, sayCaseStep } from "../../src/language/index.ts";
import { caseSheet } from "../../src/paper/case/index.ts";
import { lineRulesFrom, sheetText } from "../../src/paper/line/index.ts";
import { countLimitsFrom, cultureLimitsFrom, defaultPolicy } from "../../src/policy/index.ts";
import {
  eventCatalogue,
  fieldsOf,
  lineView,
  patientView,
  referralView,
  type EventType,
  type Field,
  type History,
  type Subject,
} from "../../src/register/index.ts";
import { practiceLines } from "../practice-lines.ts";
import { historyOfEntries, inventedEntry } from "../invented-entry.ts";

/*
 * A line's story may leave the service. HIPAA Safe Harbor, 45 CFR 164.514(b)(2) (from memory), names what identifies:
 * names, places smaller than a state, all parts of dates but the year, numbers of phones, records and devices, ages over 89.
 * Here every field of every event is filled, words and names with a mark, and none of the marks may come out.
 */
const MARK = "Zwetschge";
const NUMBER = "4711";
const WARD = "Hasenbergl";
const limits = countLimitsFrom(defaultPolicy.table);
const WHEN = "2026-03-17T10:30:00+01:00";

/** A value for any field of the catalogue; what a person types carries the mark. */
function planted(name: string, field: Field): unknown {
  switch (field.kind) {
    case "text":
    case "name":
      return name === "ward" || name === "place" || name === "fromWard"
        ? `${WARD} ${MARK}`
        : `${MARK} ${NUMBER}, 17 March 2026, ward ${WARD}, 0170 ${NUMBER}`;
    case "reference":
      return `${name}-${NUMBER}`;
    case "date":
      return "2026-04-21";
    case "instant":
      return "2026-03-17T11:47:00+01:00";
    case "number":
    case "count":
      return field.least;
    case "yes-no":
      return true;
    case "choice":
      return field.options[0];
    case "choices":
      return field.options.slice(0, 2);
    case "rows":
      return [Object.fromEntries(Object.entries(field.fields).map(([key, inner]) => [key, planted(key, inner)]))];
    default:
      return field satisfies never;
  }
}

const everyEvent = (
  kind: "patient" | "referral" | "line",
): readonly (readonly [EventType, Record<string, unknown>])[] =>
  Object.keys(eventCatalogue[kind]).map((type) => [
    type as EventType,
    Object.fromEntries(Object.entries(fieldsOf(kind, type) ?? {}).map(([name, field]) => [name, planted(name, field)])),
  ]);

type Said = readonly (readonly [type: EventType, said: Record<string, unknown>, day?: string])[];

const historyOf = (subject: Subject, said: Said): History =>
  historyOfEntries(
    subject,
    said.map(([type, data, day], index) =>
      inventedEntry({
        id: `${MARK}-${NUMBER}-${index}`,
        subject,
        type,
        at: day ?? WHEN,
        writtenAt: WHEN,
        author: { initials: MARK, role: "inserter", account: `${MARK}@${WARD}` },
        device: `tablet ${WARD}`,
        seen: index,
        data: Object.fromEntries(Object.entries(data).map(([key, value]) => [key, { value, from: "measured" }])),
      }),
    ),
  );

interface Told {
  readonly story: CaseStory;
  readonly rows: readonly LineRow[];
}

function told(line: Said, more: { readonly bornOn?: string; readonly others?: number } = {}): Told {
  const patient = historyOf(`patient:patient-${NUMBER}`, [
    ...everyEvent("patient"),
    ["PatientDetailsTaken", { bornOn: more.bornOn ?? "1931-02-03" }],
  ]);
  const referral = referralView(historyOf(`referral:referral-${NUMBER}`, everyEvent("referral")));
  const view = lineView(historyOf(`line:${MARK}`, line));
  const others = Array.from({ length: more.others ?? 0 }, (_, at) =>
    lineView(historyOf(`line:other ${at}`, [["LineInserted", { patient: `${at}`, referral: `referral-${NUMBER}` }]])),
  );
  const born = historyOf("patient:0", [["PatientRegistered", { bornOn: "1931-02-03" }]]);
  const { lines: rows } = lineRowsFromRegister(
    {
      lines: [view, ...others],
      referrals: [referral],
      patients: new Map([
        [`patient:patient-${NUMBER}` as Subject, patientView(patient)],
        ...others.map((_, at) => [`patient:${at}` as Subject, patientView(born)] as const),
      ]),
      rules: lineRulesFrom(defaultPolicy),
      cultures: cultureLimitsFrom(defaultPolicy.table),
      keyOf: (_, name) => name,
    },
    "2026-06-01T12:00:00+02:00" as Instant,
  );
  const story = caseOfLine({ line: view, referral, row: rows[0] as LineRow }, rows, limits);
  if (!story) throw new Error("no story");
  return { story, rows };
}

const everyShape = (story: CaseStory): readonly string[] => [
  JSON.stringify(caseFile(story, defaultPolicy.version)),
  caseCsv(story),
  caseLines(story).join("\n"),
  sheetText(caseSheet(story, { policyVersion: defaultPolicy.version, practice: false })).join("\n"),
];
const placing = everyEvent("line").find(([type]) => type === "LineInserted") as Said[number];

describe("a line's story, with every field of every event planted", () => {
  const { story } = told(everyEvent("line"));

  test("no name, word, number, place, day or hour of the record comes out, in any of its four shapes", () => {
    for (const shape of everyShape(story)) {
      for (const mark of [MARK, NUMBER, WARD, "0170", "inserter", "initials", "tablet"])
        expect(shape).not.toContain(mark);
      const without = shape.replaceAll(defaultPolicy.version, "");
      expect(without).not.toMatch(/\b(19|20)\d\d\b/);
      expect(without).not.toMatch(/\d\d?:\d\d|\d{4}-\d\d-\d\d|T\d\d:/);
      expect(without).not.toMatch(
        /\b(Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec|January|March|April|Mon|Tue|Wed|Thu|Fri|Sat|Sun)\b/,
      );
    }
  });

  test("the story is not empty: the events that may be told are told, and what they found", () => {
    const kinds = new Set(story.steps.map(({ what }) => what));
    expect([...kinds].sort()).toEqual(Object.keys(CASE_FIELDS).sort());
    expect(story.steps.flatMap(({ facts }) => facts).length).toBeGreaterThan(40);
    expect(caseLines(story).join("\n")).toContain("Line removed");
  });

  test("a name in the place of a choice or a number does not come out either", () => {
    const odd = everyEvent("line").map(([type, said]): Said[number] => [
      type,
      Object.fromEntries(
        Object.entries(said).map(([name, value]) => [
          name,
          name === "patient" || name === "referral" ? value : Array.isArray(value) ? [MARK, NUMBER] : MARK,
        ]),
      ),
    ]);
    for (const shape of everyShape(told(odd).story))
      for (const mark of [MARK, NUMBER]) expect(shape).not.toContain(mark);
  });

  test("the old value of a correction and the reason of a voided event stay in the record", () => {
    const corrected = [
      ...everyEvent("line"),
      ["ValueCorrected" as EventType, { event: `${MARK}-${NUMBER}-0`, field: "outsideCm", why: MARK }],
    ] as Said;
    for (const shape of everyShape(told(corrected).story)) expect(shape).not.toContain(MARK);
  });

  test("an age over 89 is told as its group alone", () => {
    expect(caseLines(story)[0]).toBe("Age: 80 years and over");
    expect(caseLines(told([placing], { bornOn: "2025-09-01" }).story)[0]).toBe("Age: under 1 year");
  });
});

describe("what a story may hold", () => {
  const kinds: Readonly<Record<string, "line" | "referral">> = Object.fromEntries([
    ...Object.keys(eventCatalogue.line).map((type) => [type, "line"] as const),
    ...Object.keys(eventCatalogue.referral).map((type) => [type, "referral"] as const),
  ]);

  test.each(Object.entries(CASE_FIELDS))(
    "%s tells numbers, choices and yes or no, nothing that was typed",
    (type, names) => {
      for (const name of names) {
        const field = fieldsOf(kinds[type] as string, type)?.[name];
        expect(["number", "count", "choice", "choices", "yes-no"], name).toContain(field?.kind);
      }
    },
  );

  test("every word of it has a name on the screen", () => {
    const { story } = told(everyEvent("line"));
    for (const step of story.steps) {
      expect(sayCaseStep(step)).not.toMatch(/[a-z][A-Z]/);
      for (const fact of step.facts) expect(sayCaseName(fact)).not.toMatch(/^[a-z]+[A-Z]/);
    }
  });
});

describe("days", () => {
  const story = told([
    ["LineInserted", placing[1], "2026-03-17T23:50:00+01:00"],
    ["CareGiven", { outsideCm: 2, symptoms: ["none"] }, "2026-03-18T00:10:00+01:00"],
    ["CareGiven", { outsideCm: 3, symptoms: ["leak"] }, "2026-03-31T09:00:00+02:00"],
    ["LineRemoved", { reason: "treatment ended" }, "2026-04-14T09:00:00+02:00"],
  ]).story;

  // by the calendar: from 17 March to 31 March are 14 midnights, the change of the clocks on 29 March among them
  test("count midnights from the placing, whatever the clock was put to", () => {
    const own = story.steps.filter(({ what }) => what === "CareGiven" || what === "LineRemoved");
    expect(own.map(({ day }) => day)).toEqual([1, 14, 28]);
  });

  test("before the placing are below nought", () => {
    const later = told([["LineInserted", placing[1], "2026-03-20T10:00:00+01:00"]]).story;
    expect(later.steps.find(({ what }) => what === "ReferralReceived")?.day).toBe(-3);
    expect(caseLines(later).join("\n")).toContain("Day −3");
  });

  test("times of bottles are told as minutes from loading, never as hours of a day", () => {
    const bottles = [
      { site: "line", loadedAt: "2026-03-19T10:20:00+01:00", flaggedAt: "2026-03-19T19:05:00+01:00" },
      { site: "peripheral vein", loadedAt: "2026-03-19T10:20:00+01:00", flaggedAt: "2026-03-19T21:05:00+01:00" },
    ];
    const { steps } = told([placing, ["CulturesTaken", { bottles }, "2026-03-19T10:00:00+01:00"]]).story;
    // loaded 10:20, flagged 19:05: 525 min; 21:05: 645 min
    expect(steps.at(-1)?.facts.map(({ name, value }) => [name, value])).toEqual([
      ["lineBottleMin", 525],
      ["veinBottleMin", 645],
    ]);
  });
});

describe("the warning of a rare combination", () => {
  // three or fewer share age band, diagnosis and month: the policy's row count.rare-people
  test.each([
    [0, true],
    [2, true],
    [3, false],
  ])("with %i others who share age band, diagnosis and month, warned is %s", (others, rare) => {
    const { story, rows } = told([placing], { others: 0 });
    const alike = Array.from({ length: others }, (_, at) => ({ ...(rows[0] as LineRow), patient: `other ${at}` }));
    const again = told([placing]);
    const view = caseOfLine(
      { line: lineView(historyOf("line:x", [placing])), referral: undefined, row: again.rows[0] as LineRow },
      [again.rows[0] as LineRow, ...alike],
      limits,
    );
    expect(view).toMatchObject({ rare, peopleAlike: others + 1 });
    expect(story.rare).toBe(true);
    const words = caseLines(view as CaseStory).at(-1);
    expect(words?.includes("Ask before you show it.")).toBe(rare);
    expect(caseFile(view as CaseStory, "p").fewAlike).toBe(rare);
    expect(JSON.stringify(caseFile(view as CaseStory, "p"))).not.toContain("peopleAlike");
  });

  test("one person with several lines is one person", () => {
    const { rows } = told([placing]);
    const own = rows[0] as LineRow;
    const view = lineView(historyOf("line:x", [placing]));
    const story = caseOfLine({ line: view, referral: undefined, row: own }, [own, own, own, own, own], limits);
    expect(story?.peopleAlike).toBe(1);
  });
});

describe("the one page of every practice line", () => {
  const listed = practiceLines();
  const { lines: rows } = lineRowsFromRegister(
    {
      lines: listed.map(({ line }) => line),
      referrals: [],
      patients: new Map(listed.flatMap(({ patient }) => (patient ? [[patient.subject, patient] as const] : []))),
      rules: lineRulesFrom(defaultPolicy),
      cultures: cultureLimitsFrom(defaultPolicy.table),
      keyOf: (_, name) => name,
    },
    "2026-11-26T11:02:00+00:00" as Instant,
  );

  test.each(listed.filter(({ line }) => line.placed).map((one) => [one.line.subject, one] as const))(
    "%s names nobody, no ward and no date, and reads in short sentences",
    (subject, { line, patient }) => {
      const row = rows.find(({ key }) => key === subject) as LineRow;
      const story = caseOfLine({ line, referral: undefined, row }, rows, limits) as CaseStory;
      const text = sheetText(caseSheet(story, { policyVersion: "", practice: true })).join("\n");
      for (const word of [patient?.name, patient?.number, line.owner?.owner, line.owner?.place, "Ward"])
        if (word) expect(text).not.toContain(word);
      expect(text).toContain("Practice, invented");
      expect(text).not.toMatch(/\b20\d\d\b|undefined|NaN/);
    },
  );
});
