import { describe, expect, test } from "vitest";
import {
  caseOfRow,
  checkTable,
  exportLines,
  lineTableSchema,
  STOP_CODES,
  withHouseWordsCoded,
  type AuditTable,
  type Disguise,
  type LineRow,
} from "../../src/audit/index.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { SIGN_STOP, TIP_STOP } from "../../src/core/release/index.ts";
import { textHash } from "../../src/register/index.ts";
import { lineSentences } from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { dated, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";

// Of what leaves the service: a word on a list of ours may leave, any other leaves as a code that is the same throughout,
// however much it looks like a word of ours. Common practice, no source. Every name here is invented.

const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
/** What somebody types into a coded column: a name with a hyphen, small, long or in a scheme's clothes. */
const NAMES = ["maurer-anna", "anna-sophie-maurer", "Maurer", "maurer", "arm-barred-maurer"];
const secret: Disguise = {
  keyOf: (kind, name) => `${kind[0]?.toUpperCase()}-${textHash(name).slice(0, 12)}`,
  shiftDaysOf: () => 11,
};
const typedEverywhere = (name: string): Partial<LineRow> =>
  ({
    side: name,
    vein: name,
    ward: name,
    setting: name,
    inserter: name,
    diagnosis: name,
    indication: name,
    tipMethod: name,
    tipPlace: name,
    lot: name,
    catheter: name,
    overdueCare: [name, "dressing"],
    overrides: [name, "arm-barred", TIP_STOP, SIGN_STOP],
    checks: {
      insideCm: 40,
      weightKg: 70,
      replaces: name,
      timeKnownTo: name,
      writtenAfter: [name, "vein"],
    },
  }) as unknown as Partial<LineRow>;
const rowOf = (name: string): LineRow =>
  plainRow(name, "2025-03-02", removed("2025-03-20", name as "died"), typedEverywhere(name));

describe("given a person's name in every coded column", () => {
  const rows = NAMES.map(rowOf);
  const exported = exportLines({ lines: rows }, secret, limits);

  test("when the table is exported, then no name leaves, and words of ours do", () => {
    expect(exported.rows).toBe(NAMES.length);
    expect(exported.csv).not.toMatch(/maurer|anna|sophie/i);
    expect(JSON.stringify([exported.smallCells, lineTableSchema(exported.words)])).not.toMatch(/maurer|anna|sophie/i);
    expect(exported.csv.match(/;arm-barred;tip not in a good place/g)).toHaveLength(NAMES.length);
    expect(exported.csv.match(/;dressing/g)).toHaveLength(NAMES.length);
    expect(exported.csv.match(/;vein/g)).toHaveLength(NAMES.length);
  });

  test("when one word stands in two rows, then both have one code, and the dictionary lists it once", () => {
    const twice = exportLines({ lines: [...rows, { ...rowOf("Maurer"), key: "again" }] }, secret, limits);
    const own = twice.words.filter(({ column, word }) => column === "overrides" && word === "Maurer");
    expect(own).toHaveLength(1);
    expect(own[0]?.rows).toBe(2);
    expect(twice.csv.split(`${own[0]?.code};arm-barred`)).toHaveLength(3);
    const field = lineTableSchema(twice.words).fields.find(({ name }) => name === "overrides");
    expect(field?.houseCodes).toContain(own[0]?.code);
    expect(field?.houseCodes).toHaveLength(NAMES.length);
  });

  test("when one word stands in two columns, then its codes do not tell that they are one word", () => {
    const codes = new Set(exported.words.filter(({ word }) => word === "Maurer").map(({ code }) => code));
    expect(codes.size).toBe(exported.words.filter(({ word }) => word === "Maurer").length);
    expect(codes.size).toBeGreaterThan(8);
  });

  test("when a choice left as a code, then its field allows that code beside its own words", () => {
    const vein = lineTableSchema(exported.words).fields.find(({ name }) => name === "vein");
    const allowed = vein?.constraints?.["enum"] as readonly string[];
    expect(allowed).toContain("basilic");
    expect(vein?.houseCodes?.every((code) => allowed.includes(code))).toBe(true);
    expect(vein?.houseCodes).toHaveLength(NAMES.length);
  });

  test("when a referral or a ward's month names them, then it does so by the same code as the lines", () => {
    const table: AuditTable = {
      asOf: timed("2025-07-15T12:00Z"),
      lines: rows,
      referrals: [
        { key: "r", receivedOn: dated("2025-03-01"), outcome: "declined", instead: "Maurer", ward: "Maurer" },
      ],
      wardMonths: [
        {
          key: "w",
          ward: "Maurer",
          month: dated("2025-03-01"),
          patientDays: 100,
          manualDays: 3,
          sampledWithLine: missing("not asked"),
          sampledAll: missing("not asked"),
        },
      ],
    };
    const { table: coded } = withHouseWordsCoded(table, (column, word) =>
      secret.keyOf("other word", `${column}|${word}`),
    );
    expect(JSON.stringify([coded.referrals, coded.wardMonths])).not.toMatch(/maurer/i);
    const ward = coded.lines[NAMES.indexOf("Maurer")]?.ward;
    expect([coded.referrals[0]?.ward, coded.wardMonths?.[0]?.ward]).toEqual([ward, ward]);
  });

  test("when its story is told for teaching, then no name is in it", () => {
    const { facts } = checkTable(
      { asOf: timed("2025-07-15T12:00Z"), lines: rows, referrals: [] },
      limits,
      surveillance,
    );
    expect(facts).toHaveLength(NAMES.length);
    for (const one of facts) {
      const { opening, steps } = caseOfRow(one, rows, limits);
      expect(JSON.stringify([opening, steps])).not.toMatch(/maurer|anna|sophie/i);
    }
  });
});

test("the stops that leave under their own name are stops with a sentence of ours", () => {
  expect(STOP_CODES.length).toBeGreaterThan(8);
  const named = new Set([TIP_STOP, SIGN_STOP, "arm-barred"]);
  for (const code of STOP_CODES.filter((one) => !named.has(one)))
    expect(Object.keys(lineSentences), code).toContain(code);
});

describe("given wards with names, at the command line", () => {
  const HEAD = "row,line_key,patient_key,placed_at,end_kind,end_at,end_reason,side,ward,overrides,events,patient_days";
  const wards = ["Maurer Ward", "Ash", "not known"];
  const year = [
    HEAD,
    ...Array.from({ length: 90 }, (_, at) =>
      [
        "line",
        `L${at}`,
        `P${at}`,
        `2025-03-${String(1 + (at % 28)).padStart(2, "0")}`,
        "removed",
        "2025-04-20",
        "treatment ended",
        at % 2 === 0 ? "left arm" : "right arm",
        wards[at % 3],
        "maurer-anna",
        at % 4 === 0 ? "occlusion@2025-04-10" : "none",
        "",
      ].join(","),
    ),
    "ward month,W1,,2025-03-01,,,,,Maurer Ward,,,not known",
  ].join("\n");
  const run = (...words: readonly string[]) =>
    runCommandLine(words, {
      read: () => year,
      write: () => undefined,
      now: () => "1 Jan 2026, 11:02",
      today: () => "2026-01-01" as CivilDate,
      moment: () => "2026-01-01T11:02+00:00" as Instant,
    });
  const span = ["--from", "2025-01-01", "--to", "2026-01-01", "--as-of", "2026-01-01"];

  test.each([
    ["audit", "--by", "ward", "--outside", "yes"],
    ["audit", "--by", "ward", "--outside", "yes", "--json"],
    ["rates", "--by", "ward", "--outside", "yes"],
    ["pool", "--service", "north", "--measure", "occlusion", "--by", "side", "--strata", "ward"],
    ["pool", "--service", "north", "--measure", "occlusion", "--by", "ward"],
  ])("when %s %s %s is asked for, then it names no ward", async (name, ...more) => {
    const { output } = await run(name, "year.csv", ...more, ...span);
    expect(output).not.toMatch(/maurer|Ash\b|anna/i);
    expect(new Set(output.match(/W-[0-9a-f]{12}/g)).size).toBe(2);
    const legend = (await run(name, "year.csv", ...more, ...span, "--legend", "yes")).output;
    expect(legend).toContain("ward,W-");
    expect(legend).toContain(",Maurer Ward,");
    for (const code of output.match(/W-[0-9a-f]{12}/g) ?? []) expect(legend).toContain(code);
  });

  test("when the pack is asked for with codes, then its pages name no ward and no word typed as a stop", async () => {
    const asked = ["pack", "year.csv", "--month", "2025-04", "--as-of", "2026-01-01", "--wards"];
    const own = await run(...asked, "names");
    expect(own.output).toContain("Maurer Ward");
    const coded = await run(...asked, "codes");
    expect(coded.output).not.toMatch(/maurer|Ash\b|anna/i);
    expect((await run(...asked, "codes", "--json")).output).not.toMatch(/maurer|Ash\b|anna/i);
    expect((await run(...asked, "codes", "--legend", "yes")).output).toContain("overrides,O-");
    expect(await run(...asked, "colours")).toMatchObject({ exit: 64 });
  });
});
