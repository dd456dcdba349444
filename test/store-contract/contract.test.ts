// Over 300 lines because it is ONE contract: whoever adds a store reads, in one place, everything it must do.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyStore, type EventStore, type Subject } from "../../src/register/index.ts";
import {
  openEngine,
  openMemoryStore,
  openPostgresql,
  sqlEventStore,
  sqliteConnection,
  type SqlConnection,
} from "../../src/store/index.ts";
import { inventedEvent, places } from "./invented-event.ts";
import { hasPostgresql, startPostgresql, type PostgresqlServer } from "./postgresql-server.ts";

/** One store with a second way to what it keeps, for going behind its back. */
interface Kept {
  readonly store: EventStore;
  readonly connection?: SqlConnection;
  readonly again?: () => Promise<EventStore>;
}

const folder = mkdtempSync(join(tmpdir(), "veinwright-store-"));
let server: PostgresqlServer | undefined;
let count = 0;
const hasNodeSqlite = Number(process.versions.node.split(".")[0]) >= 24;
if (!hasPostgresql) console.log("PostgreSQL is not installed here: the contract does not run on it.");
if (!hasNodeSqlite) console.log("This Node has no SQLite of its own: the contract runs on better-sqlite3.");

beforeAll(async () => {
  server = await startPostgresql();
});
afterAll(() => {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const sqlite = (driver: "node:sqlite" | "better-sqlite3") => async (): Promise<Kept> => {
  const file = join(folder, `${(count += 1)}.sqlite`);
  const open = async () => sqliteConnection(await openEngine(file, driver));
  const connection = await open();
  return { connection, store: await sqlEventStore(connection), again: async () => sqlEventStore(await open()) };
};
const postgresql = async (): Promise<Kept> => {
  const url = (await server?.url(`contract${(count += 1)}`)) ?? "";
  const connection = await openPostgresql(url);
  return {
    connection,
    store: await sqlEventStore(connection),
    again: async () => sqlEventStore(await openPostgresql(url)),
  };
};

const kinds: readonly (readonly [string, () => Promise<Kept>])[] = [
  ["memory", async () => ({ store: openMemoryStore() })],
  ...(hasNodeSqlite
    ? ([["node:sqlite", sqlite("node:sqlite")]] as const)
    : ([["better-sqlite3", sqlite("better-sqlite3")]] as const)),
  ...(hasPostgresql ? ([["PostgreSQL", postgresql]] as const) : []),
];
const ON_DISK = kinds.filter(([name]) => name !== "memory");
const LINE: Subject = "line:a";

async function keeping(open: () => Promise<Kept>, work: (kept: Kept) => Promise<void>): Promise<void> {
  const kept = await open();
  try {
    await work(kept);
  } finally {
    await kept.store.close();
  }
}

describe.each(kinds)("a store in %s", (_name, open) => {
  test("takes events in order, gives places, and reads them back as they were", () =>
    keeping(open, async ({ store }) => {
      expect(await store.head()).toEqual({ position: 0, chainHash: "00".repeat(32) });
      const [a, b, c] = [inventedEvent(LINE, "e1"), inventedEvent(LINE, "e2"), inventedEvent("line:b", "e3")];
      await store.append({ subject: LINE, expectedVersion: 0, events: [a, b] });
      const answer = await store.append({ subject: "line:b", expectedVersion: 0, events: [c] });
      expect(answer).toMatchObject({ kind: "accepted", version: 1 });
      const read = await store.readAfter(0, 10);
      expect(places(read)).toEqual([
        ["e1", 1, 1],
        ["e2", 2, 2],
        ["e3", 3, 1],
      ]);
      expect(read[0]).toMatchObject({ ...a });
      expect(places(await store.readSubject(LINE, 1))).toEqual([["e2", 2, 2]]);
      expect(places(await store.readAfter(1, 1))).toEqual([["e2", 2, 2]]);
      expect(await store.head()).toEqual({ position: 3, chainHash: read[2]?.chainHash });
      expect(await verifyStore(store)).toMatchObject({ kind: "whole", events: 3, subjects: 2 });
    }));

  test("an event sent twice keeps the place it had", () =>
    keeping(open, async ({ store }) => {
      const [a, b] = [inventedEvent(LINE, "e1"), inventedEvent(LINE, "e2")];
      await store.append({ subject: LINE, expectedVersion: 0, events: [a] });
      await store.append({ subject: LINE, expectedVersion: 1, events: [b] });
      const again = await store.append({ subject: LINE, expectedVersion: 0, events: [a] });
      expect(again.kind === "accepted" && places(again.events)).toEqual([["e1", 1, 1]]);
      // half of an offer was taken before the writer lost touch: the rest follows
      const c = inventedEvent(LINE, "e3");
      const rest = await store.append({ subject: LINE, expectedVersion: 1, events: [b, c] });
      expect(rest.kind === "accepted" && places(rest.events)).toEqual([
        ["e2", 2, 2],
        ["e3", 3, 3],
      ]);
      expect((await store.head()).position).toBe(3);
    }));

  test("an identifier stands for one content, and a seal for what it seals", () =>
    keeping(open, async ({ store }) => {
      await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e1", 1)] });
      const other = { subject: LINE, expectedVersion: 1, events: [inventedEvent(LINE, "e1", 2)] };
      expect(await store.append(other)).toEqual({ kind: "refused", code: "id-stands-for-other-content", id: "e1" });
      const forged = { ...inventedEvent(LINE, "e2"), device: "another" };
      expect(await store.append({ subject: LINE, expectedVersion: 1, events: [forged] })).toEqual({
        kind: "refused",
        code: "wrong-content-hash",
        id: "e2",
      });
      await expect(
        store.append({ subject: "line:b", expectedVersion: 0, events: [inventedEvent(LINE, "e3")] }),
      ).rejects.toThrow(RangeError);
      expect((await store.head()).position).toBe(1);
    }));

  test("a writer that saw too little, or too much, is told what there is", () =>
    keeping(open, async ({ store }) => {
      await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e1")] });
      const late = await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e2")] });
      expect(late.kind === "moved on" && places(late.since)).toEqual([["e1", 1, 1]]);
      const ahead = await store.append({ subject: LINE, expectedVersion: 5, events: [inventedEvent(LINE, "e2")] });
      expect(ahead).toEqual({ kind: "moved on", version: 1, since: [] });
    }));

  test("of 32 writers on one subject exactly one is taken at each version", () =>
    keeping(open, async ({ store, again }) => {
      const second = (await again?.()) ?? store;
      try {
        for (let version = 0; version < 4; version += 1) {
          const answers = await Promise.all(
            Array.from({ length: 32 }, (_, writer) =>
              (writer % 2 === 0 ? store : second).append({
                subject: LINE,
                expectedVersion: version,
                events: [inventedEvent(LINE, `v${version}w${writer}`)],
              }),
            ),
          );
          expect(answers.filter(({ kind }) => kind === "accepted")).toHaveLength(1);
          expect(answers.filter(({ kind }) => kind === "moved on")).toHaveLength(31);
        }
        expect(await verifyStore(store)).toMatchObject({ kind: "whole", events: 4 });
      } finally {
        if (second !== store) await second.close();
      }
    }));

  test("the day's head is kept, the same day again replaces it, and the tree grows", () =>
    keeping(open, async ({ store }) => {
      await store.checkpoint("2031-03-04");
      for (let index = 0; index < 7; index += 1) {
        await store.append({ subject: LINE, expectedVersion: index, events: [inventedEvent(LINE, `e${index}`)] });
        await store.checkpoint(index < 3 ? "2031-03-05" : "2031-03-06");
      }
      const kept = await store.checkpoints();
      expect(kept.map(({ day, position }) => [day, position])).toEqual([
        ["2031-03-04", 0],
        ["2031-03-05", 3],
        ["2031-03-06", 7],
      ]);
      const verified = await verifyStore(store);
      expect(verified).toMatchObject({ kind: "whole", checkpoints: 3, treeRoot: kept[2]?.treeRoot });
      const beyond = { position: 8, chainHash: "11".repeat(32) };
      expect(await verifyStore(store, [beyond])).toMatchObject({ first: { code: "cut-off", found: "7" } });
      const swapped = { position: 4, chainHash: "11".repeat(32) };
      expect(await verifyStore(store, [swapped])).toMatchObject({ first: { code: "checkpoint-chain", position: 4 } });
    }));
});

describe.each(ON_DISK)("what only %s can show", (name, open) => {
  test("does what the store in memory does, whatever is offered", () =>
    fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.record({
            subject: fc.constantFrom<Subject>("line:a", "line:b"),
            expectedVersion: fc.nat(4),
            events: fc.array(fc.record({ id: fc.nat(5), says: fc.nat(1) }), { maxLength: 3 }),
          }),
          { minLength: 1, maxLength: 12 },
        ),
        async (offers) => {
          const twin = openMemoryStore();
          await keeping(open, async ({ store }) => {
            const asked = offers.map(({ subject, expectedVersion, events }) => ({
              subject,
              expectedVersion,
              events: events.map(({ id, says }) => inventedEvent(subject, `e${id}`, says)),
            }));
            const expected = [];
            for (const offer of asked) expected.push(await twin.append(offer));
            // all in one turn: one group on SQLite, one queue on PostgreSQL
            expect(await Promise.all(asked.map((offer) => store.append(offer)))).toEqual(expected);
            expect(await store.readAfter(0, 100)).toEqual(await twin.readAfter(0, 100));
            expect(await store.checkpoint("2031-03-05")).toEqual(await twin.checkpoint("2031-03-05"));
          });
        },
      ),
      { seed: 7, numRuns: (name === "PostgreSQL" ? 12 : 40) * Number(process.env["VEINWRIGHT_CASES"] ?? 1) },
    ));

  test("events cannot be changed or taken out through SQL", () =>
    keeping(open, async ({ store, connection }) => {
      await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e1")] });
      await store.checkpoint("2031-03-05");
      await expect(connection?.run("UPDATE event SET body = ''")).rejects.toThrow(/never changed/);
      await expect(connection?.run("DELETE FROM event")).rejects.toThrow(/never changed/);
      await expect(connection?.run("DELETE FROM checkpoint")).rejects.toThrow(/never taken out/);
      await expect(connection?.run("INSERT INTO event (position) VALUES ('x')")).rejects.toThrow();
    }));

  test.each([
    ["the text", "UPDATE event SET body = REPLACE(body, 'desk', 'bench') WHERE position = 3", "content-changed", 3],
    ["the subject", "UPDATE event SET subject = 'line:z', version = 1 WHERE position = 1", "content-changed", 1],
    [
      "the seal too",
      "UPDATE event SET content_hash = REPLACE(content_hash, 'a', 'b') WHERE position = 2",
      "content-changed",
      2,
    ],
    ["a link", "UPDATE event SET chain_hash = REPLACE(chain_hash, 'a', 'b') WHERE position = 4", "chain-broken", 4],
    ["an event taken out", "DELETE FROM event WHERE position = 2", "position-missing", 3],
    ["an unreadable text", "UPDATE event SET body = '{' WHERE position = 5", "unreadable", 5],
    ["the end cut off", "DELETE FROM event WHERE position > 3", "cut-off", 5],
    ["a checkpoint", "UPDATE checkpoint SET tree_root = REPLACE(tree_root, 'a', 'b')", "checkpoint-tree", 5],
  ])("%s edited behind its back is named", (_what, statement, code, position) =>
    keeping(open, async ({ store, connection }) => {
      for (let index = 0; index < 5; index += 1)
        await store.append({ subject: LINE, expectedVersion: index, events: [inventedEvent(LINE, `e${index + 1}`)] });
      await store.checkpoint("2031-03-05");
      for (const trigger of ["event_unchanged", "event_kept"])
        await connection?.run(`DROP TRIGGER ${trigger}${connection.dialect === "sqlite" ? "" : " ON event"}`);
      await connection?.run(statement);
      expect(await verifyStore(store)).toMatchObject({ kind: "broken", first: { code, position } });
    }),
  );

  test("a transaction that breaks off leaves nothing, and the next goes on", () =>
    keeping(open, async ({ store, connection }) => {
      await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e1")] });
      const broken = connection?.transaction(async (inside) => {
        await inside.run("INSERT INTO checkpoint VALUES ('2031-03-09', 1, 'x', 'x', '')");
        await inside.transaction((deeper) =>
          deeper.run("INSERT INTO checkpoint VALUES ('2031-03-10', 1, 'x', 'x', '')"),
        );
        throw new Error("the power went");
      });
      await expect(broken).rejects.toThrow("the power went");
      expect(await store.checkpoints()).toEqual([]);
      const next = await store.append({ subject: LINE, expectedVersion: 1, events: [inventedEvent(LINE, "e2")] });
      expect(next.kind).toBe("accepted");
    }));

  test("what was acknowledged is there for whoever opens it next", () =>
    keeping(open, async ({ store, again }) => {
      await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e1")] });
      const next = await again?.();
      expect(places((await next?.readSubject(LINE)) ?? [])).toEqual([["e1", 1, 1]]);
      await next?.close();
    }));

  test("tables of a newer release, or with an edited step, are left alone", () =>
    keeping(open, async ({ connection, again }) => {
      await connection?.run("INSERT INTO migration VALUES ('record', 1, 'of next year', 'x')");
      await expect(again?.()).rejects.toThrow(/newer release/);
      await connection?.run("DELETE FROM migration WHERE place = 1");
      await connection?.run("UPDATE migration SET checksum = 'x'");
      await expect(again?.()).rejects.toThrow(/differs/);
    }));

  // PostgreSQL has no limit of its own to set; its disk is the server's
  if (name !== "PostgreSQL")
    test("a full disk refuses plainly, keeps what was there and goes on when there is room", () =>
      keeping(open, async ({ store, connection }) => {
        await store.append({ subject: LINE, expectedVersion: 0, events: [inventedEvent(LINE, "e1")] });
        await connection?.all("PRAGMA max_page_count = 20");
        const long = "x".repeat(30_000);
        const answers = await Promise.allSettled(
          ["line:b", "line:c", "line:d"].map((subject, index) =>
            store.append({
              subject: subject as Subject,
              expectedVersion: 0,
              events: [inventedEvent(subject as Subject, `f${index}`, index === 1 ? 1 : long)],
            }),
          ),
        );
        const full = answers.filter(({ status }) => status === "rejected");
        expect(full.length).toBeGreaterThan(0);
        expect(String((full[0] as PromiseRejectedResult).reason)).toMatch(/full/);
        // the small one between two that do not fit is taken
        expect(answers[1]?.status).toBe("fulfilled");
        const taken = answers.length - full.length;
        expect(await verifyStore(store)).toMatchObject({ kind: "whole", events: 1 + taken });
        await connection?.all("PRAGMA max_page_count = 10000");
        const after = await store.append({
          subject: "line:d",
          expectedVersion: 0,
          events: [inventedEvent("line:d", "g")],
        });
        expect(after.kind).toBe("accepted");
      }));
});
