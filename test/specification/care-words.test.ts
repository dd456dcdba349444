import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { nextPatencyStep } from "../../src/core/care/index.ts";
import { finding, type Verdict } from "../../src/core/reason/index.ts";
import { dueSentence, findingSentences, patencyLines, sayFinding } from "../../src/language/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { defaultPolicyTable, patencyLimitsFrom } from "../../src/policy/index.ts";

/** Every sentence of care and complications, with values as long as they come: 15 words, and no word that judges. */
const at = (text: string) => parseInstant(text) as Instant;
const day = parseCivilDate("2025-09-24") as CivilDate;
const notAsked = missing("not asked");

const values = {
  kind: "discharge",
  nextOn: day,
  end: day,
  on: day,
  specimen: day,
  earlier: day,
  days: 120,
  since: 120,
  hours: 400,
  limit: 336,
  about: "secondDeviceDoesTheJob",
  left: ["clamp", "kink", "dressing", "connector", "arm", "cough"],
  why: "no film to compare",
  leastMl: 10,
  missingCm: 12.5,
  toleranceCm: 0.5,
  outCm: 40,
  expectedCm: 52.5,
  withdrawnCm: 6.5,
  limitCm: 10,
  baselineAtCm: 10,
  nowAtCm: 12.5,
  riseCm: 3.5,
  site: "peripheral",
  minutes: 1025,
  differentialMin: -1130,
  limitMin: 120,
  gapMin: 210,
  mostMin: 30,
  lineMl: 10,
  peripheralMl: 5,
  apartMin: 180,
  bottles: ["bottle 1", "bottle 2"],
  largestMl: 10,
  other: "second lumen",
  lineCfuPerMl: 300,
  fold: 3.25,
  cfu: 16,
  method: "roll-plate",
  organism: "Staphylococcus epidermidis",
  infant: true,
  lineDay: 2,
  eligibility: "line never became eligible",
  frameDays: 14,
  reachesCm: 3.5,
  least: 1,
  most: 3,
  likelyFrom: 2,
  vein: "brachiocephalic",
  fromDays: 10,
  toDays: 14,
  months: 3,
};

const held = (sentence: string): void => {
  for (const part of sentence.split(/(?<=[.?])\s/)) {
    expect(part.split(/ +/).length, part).toBeLessThanOrEqual(15);
  }
  expect(sentence).not.toMatch(
    /\b(safe|approved|recommended|pull to|advance|positive|failure|undefined|NaN|Infinity)\b/i,
  );
  expect(sentence).not.toMatch(/[:;,]\s*\.|\s{2}|\.\./);
};

const sources = ["care", "complication"].flatMap((room) =>
  readdirSync(`src/core/${room}`)
    .filter((name) => name.endsWith(".ts") && !name.endsWith(".test.ts"))
    .map((name) => readFileSync(`src/core/${room}/${name}`, "utf8")),
);
/** Kebab words that the rooms write; a code with an ending is written as its two halves. */
const written = new Set(
  sources.flatMap((text) => [...text.matchAll(/"([a-z]+(?:-[a-z]+)+)"/g)].map(([, code]) => code as string)),
);
/** Words with a hyphen that are no codes: names of methods and of organisms' groups. */
const NO_CODE = new Set(["roll-plate"]);
const codes = [...written, "culture-draw-gap-missing", "culture-load-gap-missing"].filter((code) => !NO_CODE.has(code));

describe("every finding of care and complications", () => {
  test("has a sentence, and there are many", () => {
    expect(codes.length).toBeGreaterThan(130);
    expect(codes.filter((code) => !(code in findingSentences))).toEqual([]);
  });

  test.each(codes)("%s: 15 words, no word that judges", (code) => {
    for (const verdict of ["met", "not met", "not known", "at the limit"] as const satisfies readonly Verdict[])
      for (const given of [true, false]) {
        const sentence = sayFinding(finding(code, verdict, "note", { ...values, given }));
        // a verdict that the rule never gives leaves an empty half: only whole sentences are held
        if (!/: \.|^\.?$/.test(sentence)) held(sentence);
      }
  });
});

test("every policy row that a finding names stands in the table", () => {
  const rows = new Set(
    sources.flatMap((text) =>
      [...text.matchAll(/"((?:care|complication)\.[a-z-]+)"/g)].map(([, key]) => key as string),
    ),
  );
  expect(rows.size).toBeGreaterThan(35);
  expect([...rows].filter((key) => !(key in defaultPolicyTable))).toEqual([]);
});

describe("every due line and step", () => {
  const base = { lineId: "line", overdueDays: 0, overdueMin: 0, person: notAsked, place: notAsked, policy: [] };
  const dueAt = at("2025-09-24T22:00+02:00");
  const reasons = [
    "interval",
    "wet",
    "loose",
    "soiled",
    "lifting",
    "blood",
    "debris",
    "was taken off",
    "before a culture",
    "next visit",
  ] as const;
  const items = ["dressing", "connector", "flush", "need review"] as const;
  const states = ["due now", "overdue", "due on", "not before", "not known"] as const;

  test("a due line", () => {
    for (const why of reasons)
      for (const state of states) {
        for (const item of items) held(dueSentence({ ...base, item, why, state, dueOn: day, overdueDays: 12 }));
        held(
          dueSentence({
            ...base,
            item: "administration set",
            setKind: "nutrition with lipid",
            why,
            state,
            dueAt,
            notBeforeAt: dueAt,
            overdueMin: 3000,
          }),
        );
      }
  });

  test("a patency step", () => {
    const now = at("2025-09-24T22:00+02:00");
    const first = nextPatencyStep(
      {
        mechanical: {},
        outsideLength: notAsked,
        flushes: "not at all",
        blood: "none",
        blockedSince: notAsked,
        cause: notAsked,
        pain: notAsked,
        earSound: notAsked,
        film: notAsked,
        weightKg: notAsked,
        labelLumenMl: notAsked,
        lytic: [],
      },
      now,
      patencyLimitsFrom(defaultPolicyTable),
    );
    const steps = [
      "clamp",
      "kink",
      "dressing",
      "connector",
      "arm",
      "cough",
      "outside length",
      "kind",
      "cause",
      "symptoms",
      "film",
      "tip elsewhere",
      "pharmacy",
      "lytic facts",
      "lytic",
      "wait",
      "check for blood",
      "second lytic",
      "ask for help",
      "none",
    ] as const;
    const whys = [
      "look first",
      "position before drugs",
      "kind decides",
      "cause decides",
      "symptoms before drugs",
      "length changed",
      "no film to compare",
      "pain",
      "ear sound",
      "no cause found",
      "symptoms not known",
      "tip is not where it was",
      "precipitate likely",
      "clot likely",
      "first check not due",
      "second check not due",
      "first check due",
      "second check due",
      "no blood after one dose",
      "no blood after every dose",
      "flows again",
    ] as const;
    for (const step of steps)
      for (const why of whys)
        for (const line of patencyLines({ ...first, step, why, dueAt: now, minutesSinceDose: 119 })) held(line);
  });
});
