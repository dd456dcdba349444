import { describe, expect, test } from "vitest";
import {
  GRAVEST_FIRST,
  lotRowsFromRegister,
  lotsToActOn,
  monthPack,
  type AuditTable,
  type LineRow,
  type LotRow,
  type ReferralRow,
} from "../../src/audit/index.ts";
import { readLotTable } from "../../src/contract/index.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { twoCaseSheet } from "../../src/paper/case/index.ts";
import { sheetText } from "../../src/paper/line/index.ts";
import { packSheets } from "../../src/paper/pack/index.ts";
import { countLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../src/policy/index.ts";
import { initialHistory, lotView, type LotView } from "../../src/register/index.ts";
import { dated as on, happened, plainRow, removed } from "../../reference/by-hand/count/plain-row.ts";

// Page 4 of the pack and the sheet beside it. Common practice, no source: whom a recall reaches first, what a meeting reads.

const rules = { limits: countLimitsFrom(defaultPolicy.table), surveillance: surveillanceDefinitions[0] as never };
const month = "2025-11-01" as CivilDate;
const end = (date: string, reason = "treatment ended") => ({ ...removed(date), reason }) as LineRow["end"];
const line = (key: string, placed: string, more: Partial<LineRow> = {}): LineRow =>
  plainRow(key, placed, end("2025-11-20"), { events: [], ward: "Ash", inserter: "K. Maurer", ...more });
const packOf = (lines: readonly LineRow[], referrals: readonly ReferralRow[] = [], lots?: readonly LotRow[]) =>
  monthPack({ asOf: on("2025-12-10"), lines, referrals }, [], month, rules, lots ? { lots } : {});
const casesOf = (lines: readonly LineRow[], referrals: readonly ReferralRow[] = []) => packOf(lines, referrals).cases;
const keyOf = (one: ReturnType<typeof casesOf>["well"]) =>
  one === undefined ? undefined : one.kind === "line" ? one.line : one.referral;

describe("the worst case of a month", () => {
  test.each(GRAVEST_FIRST.slice(1).map((kind, at) => [GRAVEST_FIRST[at] as string, kind] as const))(
    "%s goes before %s, whatever the order of the rows",
    (graver, other) => {
      const rows = [
        line("other", "2025-11-02", { events: [happened(other, "2025-11-08")] }),
        line("graver", "2025-11-01", { events: [happened(graver as typeof other, "2025-11-09")] }),
      ];
      expect(keyOf(casesOf(rows).worst)).toBe("graver");
      expect(keyOf(casesOf([...rows].reverse()).worst)).toBe("graver");
    },
  );

  test("of equals the shortest stay is read, and an end that nobody knows comes last", () => {
    const clot = { events: [happened("thrombosis", "2025-11-12")] };
    const long = line("long", "2025-10-01", clot);
    const short = line("short", "2025-11-10", clot);
    const lost = line("lost", "2025-11-11", { ...clot, end: { kind: "unknown", lastKnown: on("2025-11-12") } });
    expect(keyOf(casesOf([long, short, lost]).worst)).toBe("short");
    expect(keyOf(casesOf([lost, long]).worst)).toBe("long");
    expect(keyOf(casesOf([lost]).worst)).toBe("lost");
  });

  test("an event of another month, and an infection the ward and the definition denied, are not read", () => {
    const earlier = line("earlier", "2025-10-01", { events: [happened("thrombosis", "2025-10-30")] });
    const denied = line("denied", "2025-11-01", {
      events: [{ ...happened("infection", "2025-11-05"), clinical: false, surveillance: false }],
    });
    expect(casesOf([earlier, denied]).worst).toBeUndefined();
  });
});

describe("the case that went well", () => {
  test("is the longest stay that ended with treatment and without an event", () => {
    const rows = [
      line("longer", "2025-09-01"),
      line("longest, with an event", "2025-08-01", { events: [happened("occlusion", "2025-09-08")] }),
      line("longest, for a clot", "2025-08-01", { end: end("2025-11-20", "clot") }),
      line("longest, out in October", "2025-08-01", { end: end("2025-10-31") }),
      line("shorter", "2025-10-10"),
    ];
    expect(keyOf(casesOf(rows).well)).toBe("longer");
  });

  test("where there is none, the first referral declined; a word that was typed is not printed", () => {
    const referral = (key: string, date: string, more: Partial<ReferralRow> = {}): ReferralRow => ({
      key,
      receivedOn: on(date),
      outcome: "declined",
      instead: "midline",
      ward: "Ash",
      ...more,
    });
    const asked = [
      referral("later", "2025-11-09"),
      referral("first", "2025-11-04", { instead: "whatever Dr Maurer likes" }),
      referral("before", "2025-10-30"),
    ];
    expect(casesOf([], asked).well).toEqual({ kind: "referral", referral: "first", instead: "other" });
    expect(casesOf([], [referral("only", "2025-11-09")]).well).toMatchObject({ instead: "midline" });
    expect(casesOf([], []).well).toBeUndefined();
  });
});

describe("the sheet of the two cases", () => {
  const rows = [
    line("L-7741", "2025-11-03", {
      events: [happened("infection", "2025-11-10")],
      end: end("2025-11-12", "infection"),
    }),
    line("L-7742", "2025-09-04"),
  ];
  const printed = (lines: readonly LineRow[]) =>
    sheetText(twoCaseSheet(packOf(lines), { policyVersion: "p1", practice: false }));

  test("tells days from the placing, and no key, ward, inserter, date or month", () => {
    const text = printed(rows).join("\n");
    expect(text).toContain("Day 7");
    expect(text).toContain("Day 77");
    for (const word of ["L-774", "Ash", "Maurer", "2025", "Nov", "Sep"]) expect(text).not.toContain(word);
  });

  test("prints the rule it was chosen by, and says when there is no case", () => {
    expect(printed([]).join(" ")).toContain("Gravest event of the month first");
    expect(printed([]).join(" ")).toContain("No event was counted in this month.");
  });

  test("warns where three or fewer people share age band, diagnosis and month, and not where four do", () => {
    const four = [1, 2, 3].map((at) => line(`more ${at}`, "2025-11-03", { patient: `Q${at}`, end: end("2025-12-01") }));
    const worstOf = (lines: readonly LineRow[]) => {
      const { worst } = casesOf(lines);
      return worst?.story;
    };
    expect(worstOf(rows)).toMatchObject({ rare: true, peopleAlike: 1 });
    expect(worstOf([...rows, ...four.slice(1)])).toMatchObject({ rare: true, peopleAlike: 3 });
    expect(worstOf([...rows, ...four])).toMatchObject({ rare: false, peopleAlike: 4 });
  });
});

describe("lots on page 4", () => {
  const table: AuditTable = {
    asOf: on("2025-12-10"),
    referrals: [],
    lines: [
      line("in", "2025-11-01", { lot: "LX-1", end: { kind: "in place", lastKnown: on("2025-12-09") } }),
      line("lost", "2025-11-02", { lot: "lx1", end: { kind: "unknown", lastKnown: on("2025-11-09") } }),
      line("away", "2025-11-03", { lot: "LX1", end: { kind: "handed on", at: on("2025-11-30") } }),
      line("out", "2025-11-04", { lot: "LX1" }),
      line("no lot", "2025-11-05", {
        lot: missing("not known"),
        end: { kind: "in place", lastKnown: on("2025-12-09") },
      }),
    ],
  };
  const lot = (key: string, more: Partial<LotRow> = {}): LotRow => ({
    key,
    expiresOn: "2026-12-31" as CivilDate,
    received: 10,
    discarded: 0,
    recalled: false,
    ...more,
  });
  const acted = (lots: readonly LotRow[]) => lotsToActOn(lots, table, rules.limits);

  test("a recalled lot names who may still carry it, unknown ends among them, however its number was typed", () => {
    expect(acted([lot("LX1", { recalled: true })])).toMatchObject({
      recalled: [{ lot: "LX1", stillIn: ["in"], unknownEnds: ["lost"], handedOn: ["away"] }],
      lotMissing: ["no lot"],
    });
    expect(acted([lot("LX1")])).toMatchObject({ recalled: [], lotMissing: [] });
  });

  test.each([
    ["2026-01-09", 30, true],
    ["2026-01-10", 31, false],
    ["2025-12-09", -1, true],
  ])("a lot with date %s, %i days on, is listed: %s", (date, daysLeft, listed) => {
    const { expiring } = acted([lot("LX1", { expiresOn: date as CivilDate })]);
    expect(expiring).toEqual(listed ? [{ lot: "LX1", expiresOn: date, daysLeft, left: 6 }] : []);
  });

  test("a used-up lot is not listed; one without a date, and one with more used than received, are", () => {
    const near = { expiresOn: "2025-12-20" as CivilDate };
    expect(acted([lot("LX1", { ...near, received: 4 })]).expiring).toEqual([]);
    expect(acted([lot("LX1", { ...near, received: 4, discarded: 1 })]).expiring).toMatchObject([{ left: -1 }]);
    expect(acted([lot("Q", { expiresOn: undefined })]).expiring).toMatchObject([{ lot: "Q", daysLeft: undefined }]);
  });

  test("the page prints them, and says so where no lots came with the table", () => {
    const printing = { policy: defaultPolicy, printedAt: "2025-12-10T09:00:00+01:00" as Instant, practice: false };
    const page = (lots?: readonly LotRow[]) => {
      const pack = monthPack(table, [], month, rules, lots ? { lots } : {});
      return sheetText(packSheets(pack, [], printing)[3] as never).join("\n");
    };
    const with2 = page([lot("LX1", { recalled: true }), lot("LX9", { expiresOn: "2025-12-20" as CivilDate })]);
    for (const words of ["LX1: 1 still in (in), 1 end not known (lost), 1 handed on (away)", "LX9: 10 left"])
      expect(with2).toContain(words);
    expect(with2).toContain("1 more in with no lot written");
    expect(page()).toContain("Not in a line table.");
    expect(page([])).not.toContain("Not in a line table.");
  });

  test("lots of the record come along with their own number", () => {
    const view: LotView = {
      ...lotView(initialHistory("lot:1")),
      lotNumber: "LX1",
      expiresOn: "2026-01-05",
      received: 5,
      discarded: 1,
      recalled: "",
    };
    expect(lotRowsFromRegister([view, { ...view, expiresOn: "", recalled: undefined }])).toEqual([
      { key: "LX1", expiresOn: "2026-01-05", received: 5, discarded: 1, recalled: true },
      { key: "LX1", expiresOn: undefined, received: 5, discarded: 1, recalled: false },
    ]);
  });
});

describe("a table of lots", () => {
  const head = "lot_key,expires_on,received,discarded,recalled";
  const pathsOf = (text: string) => {
    const reading = readLotTable(text);
    return reading.kind === "faults" ? reading.faults.map(({ path }) => path) : reading.lots;
  };

  // RFC 4180
  test("is read in any order of columns", () => {
    expect(pathsOf("received,recalled,lot_key\n5,no,A\n")).toEqual([
      { key: "A", expiresOn: undefined, received: 5, discarded: 0, recalled: false },
    ]);
    expect(pathsOf(`${head}\nA,2026-02-28,40,1,yes\n`)).toEqual([
      { key: "A", expiresOn: "2026-02-28", received: 40, discarded: 1, recalled: true },
    ]);
  });

  test("every fault is told by its place, and a recall nobody answered is not a no", () => {
    expect(pathsOf(`${head}\nA,2026-02-30,4.5,,\nB,2026-02-28,1,0,no\nB,2026-02-28,1,0,no,7\n`)).toEqual([
      "row 2, expires_on",
      "row 2, received",
      "row 2, recalled",
      "row 4",
    ]);
    expect(pathsOf(`${head}\nA,,1,0,no\nA,,1,0,no\n`)).toEqual(["row 3, lot_key"]);
    expect(pathsOf("lot_key,colour\nA,red\n")).toEqual([
      'row 1, column "colour"',
      'row 1, column "received"',
      'row 1, column "recalled"',
    ]);
  });
});
