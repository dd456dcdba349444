import { randomUUID } from "node:crypto";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { dwellTable, monthPack, noteSignals, readMeasures, type NotingRules } from "../../src/audit/index.ts";
import { eventFaults } from "../../src/contract/index.ts";
import { parseCivilDate, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { rememberedLines } from "../../src/language/index.ts";
import { lineRulesFrom } from "../../src/paper/line/index.ts";
import { countLimitsFrom, cultureLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../src/policy/index.ts";
import {
  evolveHistory,
  initialHistory,
  serviceMemory,
  verifyStore,
  type EventStore,
  type Subject,
} from "../../src/register/index.ts";
import { keepSignals } from "../../src/server/record/keep-signals.ts";
import type { HourlyLook } from "../../src/server/record/hourly-look.ts";
import { openMemoryStore as memoryStore, openPostgresqlStore, openSqliteStore } from "../../src/store/index.ts";
import { startPostgresql, type PostgresqlServer } from "../store-contract/postgresql-server.ts";
import { sealed, serverKit } from "./server-kit.ts";

// What the service notes of its own signals by its own clock. A signal once seen stays in the record, whatever later
// entries make of its days: common practice, no source.
const told = (value: unknown) => ({ value, from: "told" });
const SERVICE: Subject = "service:here";
const NOW = "2026-05-04T10:00+00:00" as Instant;
const read = readMeasures();
if (read.kind === "faults") throw new Error("measures");
const { measures } = read;
const rules: NotingRules = {
  limits: countLimitsFrom(defaultPolicy.table),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
  fold: { rules: lineRulesFrom(defaultPolicy), cultures: cultureLimitsFrom(defaultPolicy.table) },
  policyVersion: defaultPolicy.version,
};
const note = (store: EventStore, now: Instant = NOW) =>
  noteSignals(store, measures, rules, { now, newId: randomUUID, device: "test" });

/** Ten lines stand all the time, each for a month; a blocked line in two of them, and six in April 2026. */
async function record(store: EventStore): Promise<void> {
  for (let month = 0; month < 16; month += 1) {
    const [year, number] = [2025 + Math.floor(month / 12), (month % 12) + 1];
    const first = `${year}-${String(number).padStart(2, "0")}`;
    const next = number === 12 ? `${year + 1}-01` : `${year}-${String(number + 1).padStart(2, "0")}`;
    const blocked = first === "2026-04" ? 6 : 2;
    for (let line = 0; line < 10; line += 1) {
      const subject: Subject = `line:${first}-${line}`;
      const at = (day: string) => ({ happenedAt: day as Instant, writtenAt: day as Instant });
      const events = [
        sealed(subject, "LineInserted", { arm: told("left") }, at(`${first}-01T12:00+00:00`)),
        ...(line < blocked ? [sealed(subject, "PatencyStepTaken", {}, at(`${first}-${10 + line}T12:00+00:00`))] : []),
        sealed(subject, "LineRemoved", { reason: told("treatment ended") }, at(`${next}-01T12:00+00:00`)),
      ];
      await store.append({ subject, expectedVersion: 0, events });
    }
  }
  const base = sealed(SERVICE, "WatchBaseSet", {
    measure: told("occlusion"),
    baseFrom: told("2025-01-01"),
    baseTo: told("2026-01-01"),
    baseEvents: told(24),
    baseLineDays: told(3650),
    decision: told(3),
    ruleVersion: told("1"),
    by: told("L. Orr"),
    why: told("First full year"),
  });
  await store.append({ subject: SERVICE, expectedVersion: 0, events: [{ ...base }] });
}
const signalsIn = async (store: EventStore) =>
  (await store.readSubject(SERVICE)).filter(({ type }) => type === "SignalSeen");
const memoryOf = async (store: EventStore) =>
  serviceMemory((await store.readSubject(SERVICE)).reduce(evolveHistory, initialHistory(SERVICE)));
async function packOn(store: EventStore, withSignals = true) {
  const memory = await memoryOf(store);
  const table = await dwellTable(store, { ...rules.fold, policyVersion: rules.policyVersion }, NOW);
  const kept = withSignals ? memory : { ...memory, signals: [] };
  return monthPack(table, measures, parseCivilDate("2026-04-01") as CivilDate, rules, { memory: kept });
}

const signalWords = ({ memory }: Awaited<ReturnType<typeof packOn>>): readonly string[] =>
  (memory?.signals ?? []).flatMap((signal) => rememberedLines(signal));

let postgresql: PostgresqlServer | undefined;
beforeAll(async () => {
  postgresql = await startPostgresql();
});
afterAll(() => postgresql?.stop());
let daily: HourlyLook | undefined;
afterEach(async () => {
  await daily?.end();
  daily = undefined;
  vi.useRealTimers();
});

describe.each(["memory", "SQLite", "PostgreSQL"] as const)("on %s", (kind) => {
  const open = async (): Promise<EventStore | undefined> => {
    if (kind === "memory") return memoryStore();
    if (kind === "SQLite") return openSqliteStore(":memory:");
    return postgresql && openPostgresqlStore(await postgresql.url(`signals${randomUUID().replaceAll("-", "")}`));
  };

  test("a new signal is noted once, by the service itself, with its base, its threshold and its days", async () => {
    const store = await open();
    // where PostgreSQL is not installed the same statements have run on SQLite
    if (!store) return expect(postgresql).toBeUndefined();
    await record(store);
    const noted = await note(store);
    expect(noted).toMatchObject([{ measure: "occlusion" }]);
    const [event] = await signalsIn(store);
    if (!event) throw new Error("nothing was noted");
    expect(event.author).toEqual({ initials: "service", role: "the service", account: "" });
    expect(event.data).toMatchObject({
      measure: told("occlusion"),
      signalOn: { value: noted[0]?.on },
      baseEvents: { value: 24 },
      baseLineDays: { value: 3650 },
      decision: { value: 3 },
      firstSeenOn: told("2026-05-04"),
    });
    expect((event.data["dataFingerprint"] as { readonly value: string }).value).toMatch(/^[0-9a-f]{64}$/);
    const { position: _, version: __, chainHash: ___, ...offered } = event;
    expect(eventFaults(offered)).toEqual([]);
    // again, on the next day, and by two at once: nothing is written twice
    expect(await note(store)).toEqual([]);
    expect(await note(store, "2026-05-05T10:00+00:00" as Instant)).toEqual([]);
    await Promise.all([note(store), note(store)]);
    expect(await signalsIn(store)).toHaveLength(1);
    expect((await verifyStore(store)).kind).toBe("whole");
    await store.close();
  });

  test("two that note at the same moment write it once", async () => {
    const store = await open();
    if (!store) return expect(postgresql).toBeUndefined();
    await record(store);
    const both = await Promise.all([note(store), note(store)]);
    expect(both.flat()).toHaveLength(1);
    expect(await signalsIn(store)).toHaveLength(1);
    await store.close();
  });
});

describe("given a signal that the service noted", () => {
  const noted = async () => {
    const store = memoryStore();
    await record(store);
    await note(store);
    return store;
  };

  test("when the pack is made, then it says when it was first noted, and costs no false alarm more", async () => {
    const store = await noted();
    const [pack, without] = [await packOn(store), await packOn(store, false)];
    expect(signalWords(pack).join("\n")).toContain("First noted on Mon 4 May 2026 by the service itself.");
    expect(signalWords(without).join("\n")).toContain("Not kept in the record yet.");
    expect(pack.monitor?.plan).toEqual(without.monitor?.plan);
    expect(pack.memory?.signals).toHaveLength(without.memory?.signals.length as number);
  });

  test("when its events are voided later, then it stays, is told as no longer standing, and is not noted again", async () => {
    const store = await noted();
    for (let line = 2; line < 6; line += 1) {
      const subject: Subject = `line:2026-04-${line}`;
      const events = await store.readSubject(subject);
      const step = events.find(({ type }) => type === "PatencyStepTaken");
      const voided = sealed(subject, "EventVoided", { event: step?.id ?? "", why: "other line" });
      await store.append({ subject, expectedVersion: events.length, events: [voided] });
    }
    expect(await note(store)).toEqual([]);
    expect(await signalsIn(store)).toHaveLength(1);
    const said = signalWords(await packOn(store)).join("\n");
    expect(said).toContain("It no longer stands: no signal falls there now.");
    expect(said).toContain("First noted on Mon 4 May 2026");
  });

  test("when a person voids it, then the clock does not put it back", async () => {
    const store = await noted();
    const [signal] = await signalsIn(store);
    const { version } = await memoryOf(store);
    const voided = sealed(SERVICE, "EventVoided", { event: signal?.id ?? "", why: "a rehearsal" });
    await store.append({ subject: SERVICE, expectedVersion: version, events: [voided] });
    expect((await memoryOf(store)).signals).toEqual([]);
    expect(await note(store)).toEqual([]);
  });
});

test("without a base nobody set, nothing is noted and the record is not folded", async () => {
  const store = memoryStore();
  expect(await note(store)).toEqual([]);
  expect(await store.dwell.state()).toBeUndefined();
});

test("nobody sends an entry as the service itself", async () => {
  const kit = await serverKit();
  const cookie = await kit.person("l.orr", ["lead"]);
  const event = sealed(
    SERVICE,
    "SignalSeen",
    {
      measure: told("occlusion"),
      signalOn: told("2026-05-03"),
      base: told("b1"),
      since: told("2026-04-03"),
      events: told(6),
      lineDays: told(300),
      expected: told(2),
      sum: told(2),
      baseEvents: told(24),
      baseLineDays: told(3650),
      decision: told(3),
      ruleVersion: told("1"),
    },
    { author: { initials: "service", role: "the service", account: "" } },
  );
  const body = [{ subject: SERVICE, expectedVersion: 0, events: [event] }];
  const response = await kit.ask("POST", "/api/offers", { cookie, body });
  expect(await response.text()).toContain("role-not-held");
  expect((await kit.store.head()).position).toBe(0);
});

test("the server looks at its start and once a day, and goes on after a look that failed", async () => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "Date"], now: Date.parse("2026-05-04T10:00:00Z") });
  const store = memoryStore();
  await record(store);
  let looks = 0;
  let broken = true;
  const watched: EventStore = {
    ...store,
    readSubject: async (...asked) => {
      looks += 1;
      if (broken) throw new Error("the disk is away");
      return store.readSubject(...asked);
    },
  };
  const lines: string[] = [];
  const hour = async () => {
    await vi.advanceTimersByTimeAsync(3_600_000);
    for (let turn = 0; turn < 50; turn += 1) await new Promise((resolve) => setImmediate(resolve));
  };
  daily = keepSignals(
    watched,
    () => new Date(),
    randomUUID,
    (line) => lines.push(line),
  );
  await daily.looked;
  expect(lines).toEqual(['{"signals":"Error"}']);
  broken = false;
  await hour();
  await vi.waitFor(async () => expect(await signalsIn(store)).toHaveLength(1));
  expect(lines.at(-1)).toBe('{"signalsNoted":1}');
  const sofar = looks;
  await hour();
  expect(looks).toBe(sofar);
  for (let turn = 0; turn < 24; turn += 1) await hour();
  expect(looks).toBeGreaterThan(sofar);
  expect(await signalsIn(store)).toHaveLength(1);
});
