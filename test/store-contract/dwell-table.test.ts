import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { dwellTable, lineRowsFromRegister, type AuditTable } from "../../src/audit/index.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { lineRulesFrom } from "../../src/paper/line/index.ts";
import { cultureLimitsFrom, defaultPolicy } from "../../src/policy/index.ts";
import { practiceRecord } from "../../src/practice/index.ts";
import {
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  referralView,
  verifyStore,
  type EventStore,
  type History,
  type SealedEvent,
  type Subject,
} from "../../src/register/index.ts";
import { openEngine, openMemoryStore, openPostgresql, sqlEventStore, sqliteConnection } from "../../src/store/index.ts";
import { hasPostgresql, startPostgresql, type PostgresqlServer } from "./postgresql-server.ts";
import { inventedEntry } from "../invented-entry.ts";

// The dwell table against the fold of the whole record (`lineRowsFromRegister`), which knows nothing of pieces.

const folder = mkdtempSync(join(tmpdir(), "veinwright-dwell-"));
let server: PostgresqlServer | undefined;
let count = 0;
const hasNodeSqlite = Number(process.versions.node.split(".")[0]) >= 24;
beforeAll(async () => {
  server = await startPostgresql();
});
afterAll(() => {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const driver = hasNodeSqlite ? "node:sqlite" : "better-sqlite3";
const kinds: readonly (readonly [string, () => Promise<EventStore>])[] = [
  ["memory", async () => openMemoryStore()],
  [
    driver,
    async () => sqlEventStore(sqliteConnection(await openEngine(join(folder, `${(count += 1)}.sqlite`), driver))),
  ],
  ...(hasPostgresql
    ? ([
        [
          "PostgreSQL",
          async () => sqlEventStore(await openPostgresql((await server?.url(`dwell${(count += 1)}`)) ?? "")),
        ],
      ] as const)
    : []),
];

const rules = {
  rules: lineRulesFrom(defaultPolicy),
  cultures: cultureLimitsFrom(defaultPolicy.table),
  policyVersion: defaultPolicy.version,
};
const NOW = "2026-11-26T11:02+00:00" as Instant;
const LATER = "2026-12-09T08:00+00:00" as Instant;
const events = practiceRecord("2026-11-26" as CivilDate, "+00:00");

async function append(store: EventStore, sealed: readonly SealedEvent[]): Promise<void> {
  for (const event of sealed) {
    const { length } = await store.readSubject(event.subject);
    const answer = await store.append({ subject: event.subject, expectedVersion: length, events: [event] });
    expect(answer.kind).toBe("accepted");
  }
}

let written = 0;
const writing = (subject: Subject, type: SealedEvent["type"], data: SealedEvent["data"], at = NOW): SealedEvent =>
  inventedEntry({ id: `dwell-${(written += 1)}`, subject, type, at, data });

/** The whole record folded at once. */
async function wholeFold(store: EventStore, now: Instant): Promise<AuditTable> {
  const histories = new Map<Subject, History>();
  for (const event of await store.readAfter(0, 1_000_000))
    histories.set(event.subject, evolveHistory(histories.get(event.subject) ?? initialHistory(event.subject), event));
  const of = (kind: string) => [...histories.values()].filter(({ subject }) => subject.startsWith(`${kind}:`));
  return lineRowsFromRegister(
    {
      lines: of("line").map(lineView),
      referrals: of("referral").map(referralView),
      patients: new Map(of("patient").map((history) => [history.subject, patientView(history)])),
      ...rules,
      keyOf: (_, name) => name.slice(name.indexOf(":") + 1),
    },
    now,
  );
}

async function agrees(store: EventStore, now: Instant): Promise<AuditTable> {
  const [kept, whole] = [await dwellTable(store, rules, now), await wholeFold(store, now)];
  expect(kept.lines).toEqual(whole.lines);
  expect(kept.referrals).toEqual(whole.referrals);
  expect(kept.asOf).toEqual(whole.asOf);
  return kept;
}

describe.each(kinds)("the dwell table in %s", (_name, open) => {
  const keeping = async (work: (store: EventStore) => Promise<void>): Promise<void> => {
    const store = await open();
    try {
      await work(store);
    } finally {
      await store.close();
    }
  };

  test("of an empty record is empty", () =>
    keeping(async (store) => {
      const table = await dwellTable(store, rules, NOW);
      expect([table.lines, table.referrals]).toEqual([[], []]);
    }));

  test("follows the record event by event, and is what the whole record gives", () =>
    keeping(async (store) => {
      const step = Math.ceil(events.length / 6);
      for (let from = 0; from < events.length; from += step) {
        await append(store, events.slice(from, from + step));
        await agrees(store, NOW);
      }
      const table = await agrees(store, NOW);
      expect(table.lines.length).toBeGreaterThan(10);
      // nothing was written since: the clock alone moves what is overdue
      const later = await agrees(store, LATER);
      expect(later.lines).not.toEqual(table.lines);
    }));

  test("dropped and folded again it is the same, also after corrections of a line, its patient and its referral", () =>
    keeping(async (store) => {
      await append(store, events);
      const before = await agrees(store, NOW);
      const inserted = events.find(({ type, data }) => type === "LineInserted" && "referral" in data) as SealedEvent;
      const line = inserted.subject;
      const patient = `patient:${(inserted.data["patient"] as { readonly value: string }).value}` as Subject;
      const registered = events.find((one) => one.subject === patient) as SealedEvent;
      await append(store, [
        writing(line, "ValueCorrected", {
          event: inserted.id,
          field: "ward",
          value: { value: "Ward Nine", from: "told" },
          why: "wrong ward",
        }),
        writing(patient, "ValueCorrected", {
          event: registered.id,
          field: "bornOn",
          value: { value: "1931-02-03", from: "told" },
          why: "wrong year",
        }),
      ]);
      const corrected = await agrees(store, NOW);
      expect(corrected.lines).not.toEqual(before.lines);
      // the line is said to come of a referral that nobody placed a line for: that referral reads differently
      const waiting = corrected.referrals.find(({ outcome }) => outcome !== "placed")?.key as string;
      await append(store, [
        writing(line, "ValueCorrected", {
          event: inserted.id,
          field: "referral",
          value: { value: waiting, from: "told" },
          why: "wrong referral",
        }),
      ]);
      const moved = await agrees(store, NOW);
      expect(moved.referrals).not.toEqual(corrected.referrals);
      const state = await store.dwell.state();
      await store.dwell.drop();
      expect(await store.dwell.pieces("line")).toEqual([]);
      const again = await dwellTable(store, rules, NOW);
      expect(again.lines).toEqual(moved.lines);
      expect(again.referrals).toEqual(moved.referrals);
      expect(await store.dwell.state()).toMatchObject({ position: state?.position, lines: state?.lines });
    }));

  test("a line whose placing is voided leaves the table, and one that lies ahead comes when its time does", () =>
    keeping(async (store) => {
      await append(store, events);
      const first = await agrees(store, NOW);
      const inserted = events.find(({ type }) => type === "LineInserted") as SealedEvent;
      await append(store, [
        writing(inserted.subject, "EventVoided", { event: inserted.id, why: "never placed" }),
        writing("line:ahead", "LineInserted", inserted.data, "2026-11-26T12:00+00:00" as Instant),
      ]);
      const gone = await agrees(store, NOW);
      expect(gone.lines.length).toBe(first.lines.length - 1);
      const come = await agrees(store, "2026-11-26T13:00+00:00" as Instant);
      expect(come.lines.length).toBe(first.lines.length);
    }));

  test("is folded anew where another version of the fold wrote it, and refuses a write on what is no longer so", () =>
    keeping(async (store) => {
      await append(store, events);
      await agrees(store, NOW);
      const state = await store.dwell.state();
      if (!state) throw new Error("no state");
      const change = { state: { ...state, version: "another" }, lines: [], referrals: [], pieces: [] };
      expect(await store.dwell.write(change, { ...state, position: 1 })).toBe(false);
      expect(await store.dwell.state()).toEqual(state);
      const spoilt = { kind: "line" as const, place: 0, data: Uint8Array.of(1, 2, 3) };
      expect(await store.dwell.write({ ...change, pieces: [spoilt] }, state)).toBe(true);
      await agrees(store, NOW);
    }));

  // a piece that was changed by hand counted one line fewer, and one that was taken out counted none, without a word
  test.each<readonly [string, (data: Uint8Array) => Uint8Array]>([
    ["with one bit changed", (data) => data.map((byte, at) => (at === data.length >> 1 ? byte ^ 1 : byte))],
    ["cut in half", (data) => data.slice(0, data.length / 2)],
    ["emptied", () => new Uint8Array()],
  ])("is folded anew where a piece is %s", (_what, spoil) =>
    keeping(async (store) => {
      await append(store, events);
      const { lines } = await agrees(store, NOW);
      for (const kind of ["line", "referral"] as const) {
        const state = await store.dwell.state();
        if (!state) throw new Error("no state");
        const whole = (await store.dwell.piece(kind, 0)) ?? new Uint8Array();
        const pieces = [{ kind, place: 0, data: spoil(new Uint8Array(whole)) }];
        expect(await store.dwell.write({ state, lines: [], referrals: [], pieces }, state)).toBe(true);
        expect((await agrees(store, NOW)).lines).toEqual(lines);
        expect(new Uint8Array((await store.dwell.piece(kind, 0)) ?? [])).toEqual(new Uint8Array(whole));
      }
    }),
  );

  test("is folded anew where a piece is not there, its moment is none, or a known line has left the index", () =>
    keeping(async (store) => {
      await append(store, events);
      await agrees(store, NOW);
      const state = await store.dwell.state();
      if (!state) throw new Error("no state");
      for (const odd of [{ lines: state.lines + 2000 }, { referrals: state.referrals + 2000 }, { asOf: "no moment" }]) {
        const change = { state: { ...state, ...odd }, lines: [], referrals: [], pieces: [] };
        expect(await store.dwell.write(change, state)).toBe(true);
        await agrees(store, NOW);
        expect(await store.dwell.state()).toEqual(state);
      }
      const removed = events.find(({ type }) => type === "CareGiven") as SealedEvent;
      await append(store, [writing(removed.subject, "CareGiven", removed.data)]);
      let drops = 0;
      const { dwell } = store;
      const lost: EventStore = {
        ...store,
        dwell: {
          ...dwell,
          linesBy: async (by, values) => (drops === 0 ? [] : dwell.linesBy(by, values)),
          drop: async () => {
            drops += 1;
            await dwell.drop();
          },
        },
      };
      const seen = await dwellTable(lost, rules, NOW);
      expect([drops, seen.lines]).toEqual([1, (await wholeFold(store, NOW)).lines]);
    }));

  test("has the months that wards counted, corrected and voided as the record has them, without a fold of its lines", () =>
    keeping(async (store) => {
      await append(store, events);
      expect((await dwellTable(store, rules, NOW)).wardMonths).toBeUndefined();
      const folded = await store.dwell.state();
      const told = (value: string | number) => ({ value, from: "told" });
      const counted = writing("service:here", "WardMonthCounted", {
        ward: told("7B"),
        month: told("2026-10"),
        linesCounted: told("lines of this service"),
        patientDays: told(640),
        dailyLineDays: told(120),
      });
      await append(store, [counted]);
      expect((await dwellTable(store, rules, NOW)).wardMonths).toMatchObject([
        { ward: "7B", patientDays: 640, manualDays: 120, everyCentralLine: false },
      ]);
      expect((await store.dwell.state())?.version).toBe(folded?.version);
      await append(store, [
        writing("service:here", "ValueCorrected", {
          event: counted.id,
          field: "dailyLineDays",
          value: told(102),
          why: "two digits turned",
        }),
      ]);
      expect((await dwellTable(store, rules, NOW)).wardMonths).toMatchObject([{ manualDays: 102 }]);
      await append(store, [writing("service:here", "EventVoided", { event: counted.id, why: "another ward" })]);
      expect((await dwellTable(store, rules, NOW)).wardMonths).toBeUndefined();
      // the record is whole as it was: a month is sealed and chained as every entry
      expect(await verifyStore(store)).toMatchObject({ kind: "whole" });
    }));

  test("a table dropped by another process while it is read is not one without lines", () =>
    keeping(async (store) => {
      await append(store, events);
      const { lines } = await agrees(store, NOW);
      const { dwell } = store;
      let reads = 0;
      const torn: EventStore = {
        ...store,
        dwell: {
          ...dwell,
          pieces: async (kind) => {
            reads += 1;
            if (reads === 1) await dwell.drop();
            return dwell.pieces(kind);
          },
        },
      };
      expect((await dwellTable(torn, rules, NOW)).lines).toEqual(lines);
    }));
});
