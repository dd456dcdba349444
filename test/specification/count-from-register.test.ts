import { describe, expect, test } from "vitest";
import {
  audit,
  lineRowsFromRegister,
  momentOfInstant,
  periodOf,
  readMeasures,
  type AuditTable,
  type LineRow,
} from "../../src/audit/index.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { momentOf } from "../../src/core/dwell/index.ts";
import { practiceRecord } from "../../src/practice/index.ts";
import {
  careLimitsFrom,
  countLimitsFrom,
  cultureLimitsFrom,
  defaultPolicyTable,
  idleLimitsFrom,
  releasePolicyFrom,
  removalLimitsFrom,
  surveillanceDefinitions,
} from "../../src/policy/index.ts";
import {
  CHAIN_START,
  evolveHistory,
  fromPlan,
  initialHistory,
  lineView,
  measured,
  patientView,
  referralView,
  type EventType,
  type History,
  type Subject,
} from "../../src/register/index.ts";
import { historyOfEntries, inventedEntry } from "../invented-entry.ts";

// From events to rows. Common practice, no source: what a person wrote counts, what waits from a plan does not.

const rules = {
  release: releasePolicyFrom(defaultPolicyTable),
  care: careLimitsFrom(defaultPolicyTable),
  idle: idleLimitsFrom(defaultPolicyTable),
  removal: removalLimitsFrom(defaultPolicyTable),
};
const cultures = cultureLimitsFrom(defaultPolicyTable);
const keyOf = (kind: string, name: string) => `${kind}-${name}`;
type Said = readonly [type: EventType, at: string, said: Record<string, unknown>];

const historyOf = (subject: Subject, said: readonly Said[]): History =>
  historyOfEntries(
    subject,
    said.map(([type, at, data], index) =>
      inventedEntry({
        id: `${subject} ${index}`,
        subject,
        type,
        at: `2026-03-${at}:00+01:00`,
        seen: index,
        data: Object.fromEntries(
          // what is said about an event stands plain
          (type as string) === "ValueCorrected"
            ? Object.entries(data)
            : Object.entries(data).map(([key, value]) => [
                key,
                typeof value === "object" && value !== null && "from" in value ? value : measured(value as never),
              ]),
        ),
      }),
    ),
  );

const placing: Said = [
  "LineInserted",
  "02T10:30",
  {
    patient: "p1",
    referral: "r1",
    arm: "left",
    vein: "basilic",
    attempts: 2,
    veinDiameterMm: 4,
    veinEntryCm: 9,
    armLengthCm: 18,
    french: 4,
    lumens: 1,
    ward: "A",
    setting: "ward",
    inserter: "MK",
    lotNumber: "LX1",
    tipMethod: "film",
  },
];
const rowFrom = (said: readonly Said[], asOf = "2026-03-30T12:00+01:00"): LineRow => {
  const patient = historyOf("patient:p1", [
    ["PatientRegistered", "01T08:00", { number: "1", name: "n", bornOn: "1960-03-02" }],
  ]);
  const referral = historyOf("referral:r1", [
    ["ReferralReceived", "01T09:00", { patient: "p1", diagnosisGroup: "infection", eGfr: 40 }],
  ]);
  const table = lineRowsFromRegister(
    {
      lines: [lineView(historyOf("line:l1", said))],
      referrals: [referralView(referral)],
      patients: new Map([["patient:p1" as Subject, patientView(patient)]]),
      rules,
      cultures,
      keyOf,
    },
    asOf as Instant,
  );
  return table.lines[0] as LineRow;
};

describe("given a line that blocked, and what was written after it", () => {
  const stepAt: Said = ["PatencyStepTaken", "05T10:00", { step: "position", answer: "yes" }];
  const at = (time: string) => momentOfInstant(`2026-03-${time}:00+01:00` as Instant);
  const clearedBy = (...after: readonly Said[]) =>
    rowFrom([placing, stepAt, ...after]).events.find(({ kind }) => kind === "occlusion")?.clearedAt;

  test("then the first use or flush says when it ran again, and a look without a flush does not", () => {
    const used: Said = ["LineUsed", "06T09:00", { what: "drug" }];
    const flushed: Said = ["CareGiven", "05T18:00", { flushed: true }];
    const looked: Said = ["CareGiven", "05T12:00", { flushed: false }];
    expect(clearedBy(looked)).toBeUndefined();
    expect(clearedBy(looked, used)).toEqual(at("06T09:00"));
    expect(clearedBy(flushed, used)).toEqual(at("05T18:00"));
  });
});

describe("given a line that was placed, blocked and taken out for a clot", () => {
  const row = rowFrom([
    placing,
    ["PatencyStepTaken", "05T10:00", { step: "position", answer: "yes" }],
    ["PatencyStepTaken", "05T11:00", { step: "flush", answer: "no" }],
    ["ClotLookedFor", "09T09:00", { ultrasound: "clot seen", lineKept: false }],
    ["LineRemoved", "09T12:30", { reason: "clot", planned: false }],
  ]);

  test("then its row says where, how and when, with keys for people and things", () => {
    expect(row).toMatchObject({
      key: "line-line:l1",
      patient: "patient-p1",
      side: "left arm",
      positionShare: 0.5,
      attempts: 2,
      sizeFr: 4,
      inserter: "inserter-MK",
      lot: "lot-LX1",
      ageYears: 66,
      diagnosis: "infection",
      eGfr: 40,
      end: { kind: "removed", reason: "clot" },
    });
  });

  test("then two steps of one clearing are one blocked line, and the clot is one clot", () => {
    expect(row.events.map(({ kind }) => kind)).toEqual(["occlusion", "thrombosis"]);
  });
});

describe("given what nobody confirmed or nobody knows", () => {
  test("when a diameter still waits from the plan, then the row has none", () => {
    const row = rowFrom([["LineInserted", "02T10:30", { ...placing[2], veinDiameterMm: fromPlan(4) }]]);
    expect(row.veinDiameterMm).toEqual({ missing: "not asked" });
  });

  test("when nobody wrote a use, then idle days are not known and never the whole stay", () => {
    expect(rowFrom([placing]).idleDays).toEqual({ missing: "not known" });
    expect(
      rowFrom([
        placing,
        ["LineUsed", "04T10:00", { what: "other drug" }],
        ["LineRemoved", "09T12:00", { reason: "treatment ended" }],
      ]).idleDays,
    ).toBe(5);
  });

  test("when the end is unknown, then the line stops where it was last seen", () => {
    const row = rowFrom([placing, ["EndUnknown", "20T10:00", { lastSeenOn: "2026-03-06", lastOwner: "MK" }]]);
    expect(row.end).toEqual({ kind: "unknown", lastKnown: { precision: "date", date: "2026-03-06" } });
  });

  test("when a line came with the patient, then it is watched from the day it was known here", () => {
    const row = rowFrom([["LineFound", "10T10:30", placing[2]]]);
    expect(row.knownFrom).toEqual(momentOf("2026-03-10" as CivilDate, 630, 60));
  });

  test("when the table is made before the placing, then the line is not in it", () => {
    expect(rowFrom([placing], "2026-03-01T12:00+01:00")).toBeUndefined();
  });
});

describe("given a value of the placing corrected after the line was blocked", () => {
  const blocked: Said = ["PatencyStepTaken", "05T10:00", { step: "position", answer: "yes" }];
  const corrected = (at: string): Said => [
    "ValueCorrected" as EventType,
    at,
    { event: "line:l1 0", field: "french", value: measured(5), why: "read again" },
  ];
  test("then the row names it for the rule of late writing; a correction before the event is none", () => {
    const late = rowFrom([placing, blocked, corrected("06T09:00")]);
    expect(late.sizeFr).toBe(5);
    expect(late.checks?.writtenAfter).toEqual(["size_fr"]);
    expect(rowFrom([placing, corrected("04T09:00"), blocked]).checks?.writtenAfter).toEqual([]);
  });
});

describe("given an infection concluded days after it was suspected", () => {
  test("then it counts on the day it was suspected, under both flags", () => {
    const row = rowFrom([
      placing,
      ["InfectionSuspected", "12T08:00", { signs: ["fever"], otherSource: "none found" }],
      ["InfectionConcluded", "15T08:00", { clinical: "yes", surveillance: "not known", lineKept: true }],
    ]);
    expect(row.events).toMatchObject([{ kind: "infection", clinical: true, surveillance: { missing: "not known" } }]);
  });
});

describe("given cultures written for a suspected infection", () => {
  // Mermel LA and others 2009, Clin Infect Dis 49:1: the line's bottle flags 120 min or more before the peripheral one.
  const bottle = (site: string, flaggedAt: string, more = {}) => ({
    site,
    drawnAt: "2026-03-12T09:00:00+01:00",
    loadedAt: "2026-03-12T10:20:00+01:00",
    flaggedAt: `2026-03-12T${flaggedAt}:00+01:00`,
    volumeMl: 10,
    organism: "Staphylococcus epidermidis",
    ...more,
  });
  const taken = (bottles: readonly object[], antibioticsBefore: boolean | undefined = false): Said => [
    "CulturesTaken",
    "12T09:00",
    { bottles, ...(antibioticsBefore === undefined ? {} : { antibioticsBefore }) },
  ];
  const line = bottle("line", "19:05", { lumen: 1 });
  const later = (flaggedAt: string, more = {}) => bottle("peripheral vein", flaggedAt, more);
  const flagOf = (...cultures: readonly Said[]) =>
    rowFrom([
      placing,
      ["InfectionSuspected", "12T08:00", { signs: ["fever"], otherSource: "none found" }],
      ...cultures,
      ["InfectionConcluded", "15T08:00", { clinical: "yes", surveillance: "no", lineKept: true }],
    ]).events[0]?.pairedCulture;

  test("when the line's bottle flagged 120 minutes before the other, then the flag is yes; at 119 no", () => {
    expect(flagOf(taken([line, later("21:05")]))).toBe(true);
    expect(flagOf(taken([line, later("21:04")]))).toBe(false);
  });

  test("when the pair was written in two entries, then it is one pair", () => {
    expect(flagOf(taken([line]), taken([later("21:05")]))).toBe(true);
    expect(flagOf(taken([line]), taken([later("21:05")], true))).toEqual({ missing: "not known" });
  });

  test.each([
    ["loaded 60 minutes apart", later("22:05", { loadedAt: "2026-03-12T11:20:00+01:00" })],
    ["of another organism", later("21:05", { organism: "Candida albicans" })],
    ["of half the volume", later("21:05", { volumeMl: 5 })],
    ["without a flag", later("21:05", { flaggedAt: undefined })],
  ])("when the other bottle is %s, then the flag is not known, never no", (_, other) => {
    expect(flagOf(taken([line, other]))).toEqual({ missing: "not known" });
  });

  test("when nobody said whether an antibiotic was given, then the flag is not known", () => {
    expect(
      rowFrom([
        placing,
        ["CulturesTaken", "12T09:00", { bottles: [line, later("21:05")] }],
        ["InfectionConcluded", "15T08:00", { clinical: "yes", surveillance: "no", lineKept: true }],
      ]).events[0]?.pairedCulture,
    ).toEqual({ missing: "not known" });
  });

  test("when a later set with an antibiotic cannot be judged, then the first one that met it still stands", () => {
    expect(flagOf(taken([line, later("21:05")]), taken([line, later("20:00")], true))).toBe(true);
    expect(flagOf(taken([line, later("21:04")]), taken([line, later("20:00")], true))).toEqual({
      missing: "not known",
    });
  });

  test("when a control from a vein follows alone, then it changes nothing", () => {
    expect(flagOf(taken([line, later("21:04")]), taken([later("23:00")]))).toBe(false);
  });

  test("when no culture was taken, then it was not asked, and the next infection starts anew", () => {
    expect(flagOf()).toEqual({ missing: "not asked" });
    const row = rowFrom([
      placing,
      taken([line, later("21:05")]),
      ["InfectionConcluded", "15T08:00", { clinical: "yes", surveillance: "no", lineKept: true }],
      ["InfectionConcluded", "25T08:00", { clinical: "yes", surveillance: "no", lineKept: true }],
    ]);
    expect(row.events.map(({ pairedCulture }) => pairedCulture)).toEqual([true, { missing: "not asked" }]);
  });
});

describe("given the practice service", () => {
  const histories = new Map<Subject, History>();
  for (const [at, sealed] of practiceRecord("2026-03-04" as CivilDate, "+00:00").entries()) {
    const before = histories.get(sealed.subject) ?? initialHistory(sealed.subject);
    const stored = { ...sealed, position: at + 1, version: before.version + 1, chainHash: CHAIN_START };
    histories.set(sealed.subject, evolveHistory(before, stored));
  }
  const of = (kind: string) => [...histories.values()].filter(({ subject }) => subject.startsWith(`${kind}:`));
  const table: AuditTable = lineRowsFromRegister(
    {
      lines: of("line").map(lineView),
      referrals: of("referral").map(referralView),
      patients: new Map(of("patient").map((one) => [one.subject, patientView(one)])),
      rules,
      cultures,
      keyOf,
    },
    "2026-03-04T12:00+00:00" as Instant,
  );

  test("when it is counted, then every placed line is a row, in place, out or unknown, and nobody is named", () => {
    const kinds = table.lines.map(({ end }) => end.kind);
    expect(table.lines.length).toBe(
      of("line")
        .map(lineView)
        .filter(({ placed }) => placed).length,
    );
    expect(kinds).toEqual(expect.arrayContaining(["in place", "removed", "unknown"]));
    expect(JSON.stringify(table)).not.toMatch(/ROWAN|Edda|0555/);
    const reading = readMeasures();
    if (reading.kind === "faults") throw new Error("faults");
    const period = periodOf(table, "2026-01-01" as CivilDate, "2026-04-01" as CivilDate);
    const report = audit(table, reading.measures, period, [], {
      limits: countLimitsFrom(defaultPolicyTable),
      surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
    });
    const value = (id: string) => report.figures.find(({ measure }) => measure === id)?.numerator;
    expect(value("unknown-end")).toBe(kinds.filter((kind) => kind === "unknown").length);
    expect(value("declined")).toBeGreaterThan(0);
  });
});
