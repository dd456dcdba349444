import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { isHeldElsewhere, openEngine, openSqlite, openStore } from "../../src/store/index.ts";
import { inventedEvent } from "./invented-event.ts";
import { startPostgresql, type PostgresqlServer } from "./postgresql-server.ts";

const folder = mkdtempSync(join(tmpdir(), "veinwright-backup-"));
const place = (name: string) => join(folder, name);
let server: PostgresqlServer | undefined;
beforeAll(async () => {
  server = await startPostgresql();
});
afterAll(() => {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const say = async (words: readonly string[], stamp = "2031-03-05T10:00:00Z") => {
  const { exit, output } = await runCommandLine([...words, "--json"], {
    read: () => "",
    write: () => undefined,
    now: () => "",
    today: () => "2031-03-05" as CivilDate,
    stamp: () => stamp,
    moment: () => stamp as Instant,
  });
  return { exit, said: output.startsWith("{") ? (JSON.parse(output) as Record<string, unknown>) : { output } };
};

async function fill(address: string): Promise<void> {
  const store = await openStore(address);
  for (let index = 0; index < 12; index += 1) {
    const subject = index % 2 === 0 ? "line:a" : "line:b";
    await store.append({ subject, expectedVersion: index >> 1, events: [inventedEvent(subject, `e${index}`, index)] });
    if (index % 5 === 0) await store.checkpoint(`2031-03-0${1 + index / 5}`);
  }
  await store.close();
}

test("a SQLite record is backed up, restored elsewhere and found the same; nothing is overwritten", async () => {
  const store = place("record.sqlite");
  await fill(store);
  const open = await openStore(store);
  const made = await say(["backup", "--store", store, "--to", place("copies")]);
  await open.close();
  expect(made).toMatchObject({ exit: 0, said: { kind: "whole", events: 12, checkpoints: 3 } });
  expect(readdirSync(place("copies"))).toEqual(["veinwright-2031-03-05T10-00-00Z.sqlite"]);
  const again = await say(["backup", "--store", store, "--to", place("copies")]);
  expect(again).toMatchObject({ exit: 3, said: { refused: "already-there" } });
  const backup = String(made.said["file"]);
  const restored = await say(["restore", backup, "--to", place("new/record.sqlite")]);
  expect(restored.exit).toBe(0);
  expect((await say(["verify", "--store", place("new/record.sqlite")])).said["head"]).toEqual(
    (await say(["verify", "--store", store])).said["head"],
  );
  expect(await say(["restore", backup, "--to", store])).toMatchObject({ exit: 3, said: { refused: "already-there" } });
});

test("verify does not make a record where there is none, and names a change", async () => {
  expect(await say(["verify", "--store", place("none.sqlite")])).toMatchObject({
    exit: 65,
    said: { refused: "no-store" },
  });
  expect(existsSync(place("none.sqlite"))).toBe(false);
  const store = place("changed.sqlite");
  await fill(store);
  const behind = await openSqlite(store);
  await behind.run("DROP TRIGGER event_unchanged");
  await behind.run("UPDATE event SET body = REPLACE(body, 'desk', 'bench') WHERE position = 7");
  await behind.close();
  const found = await say(["verify", "--store", store]);
  expect(found).toMatchObject({
    exit: 3,
    said: { kind: "broken", first: { position: 7, id: "e6", code: "content-changed" } },
  });
  expect(found.said["said"]).toMatch(/^Position 7, e6\. What it says is not what its writer sealed\. Found/);
  // a copy of a broken record is not called a backup
  expect((await say(["backup", "--store", store, "--to", place("broken")])).exit).toBe(3);
  expect(readdirSync(place("broken"))).toEqual([]);
  writeFileSync(place("noise.sqlite"), "this is not a database ".repeat(500));
  expect((await say(["verify", "--store", place("noise.sqlite")])).exit).toBe(65);
  expect((await say(["restore", place("noise.sqlite"), "--to", place("x.sqlite")])).exit).toBe(65);
});

test("verify and backup name a folder, an empty file and a file of another kind, and make nothing of them", async () => {
  mkdirSync(place("folder"));
  writeFileSync(place("empty.sqlite"), "");
  writeFileSync(place("other.csv"), "patient;arm\n");
  for (const [name, refused, words] of [
    ["folder", "is-a-folder", /is a folder\. Name the file in it/],
    ["empty.sqlite", "not-a-record", /holds no record: it is empty/],
    ["other.csv", "not-a-record", /another kind of file/],
  ] as const) {
    for (const words_ of [["verify"], ["backup", "--to", place("never")]]) {
      const { exit, said } = await say([...words_, "--store", place(name)]);
      expect([exit, said["refused"]]).toEqual([65, refused]);
      expect(said["said"]).toMatch(words);
    }
  }
  expect(readdirSync(place("folder"))).toEqual([]);
  expect(readFileSync(place("empty.sqlite"), "utf8")).toBe("");
});

// SQLite, "File locking and concurrency": EXCLUSIVE lets no other connection read (from memory)
test("a record that another program holds is said to be in use, and what to do", async () => {
  const held = place("held.sqlite");
  await (await openStore(held)).close();
  const holder = await openEngine(held);
  holder.all("PRAGMA locking_mode = EXCLUSIVE", []);
  holder.run("BEGIN EXCLUSIVE", []);
  try {
    const { exit, said } = await say(["verify", "--store", held]);
    expect([exit, said["refused"]]).toEqual([65, "in-use"]);
    expect(said["said"]).toMatch(/is in use: another program holds it\..*running server.*try again/);
  } finally {
    holder.run("ROLLBACK", []);
    holder.close();
  }
  expect((await say(["verify", "--store", held])).exit).toBe(0);
  // the two drivers of SQLite and PostgreSQL each have their own word for it
  expect([{ errcode: 261 }, { code: "SQLITE_BUSY_SNAPSHOT" }, { code: "55P03" }].map(isHeldElsewhere)).toEqual([
    true,
    true,
    true,
  ]);
  expect([{ errcode: 14 }, { code: "SQLITE_CANTOPEN" }, { code: "28P01" }, undefined].some(isHeldElsewhere)).toBe(
    false,
  );
}, 30_000);

test("PostgreSQL gives lines of events that another PostgreSQL and a SQLite file take with the same links", async () => {
  if (server === undefined) return console.log("PostgreSQL is not installed here: its backup is not tried.");
  const store = await server.url("origin");
  await fill(store);
  const made = await say(["backup", "--store", store, "--to", place("lines")]);
  expect(made).toMatchObject({ exit: 0, said: { events: 12, checkpoints: 3 } });
  const backup = String(made.said["file"]);
  for (const to of [await server.url("target"), place("from-lines.sqlite")]) {
    expect(await say(["restore", backup, "--to", to])).toMatchObject({
      exit: 0,
      said: { head: made.said["head"], treeRoot: made.said["treeRoot"], checkpoints: 3 },
    });
    expect((await say(["restore", backup, "--to", to])).exit).toBe(3);
  }
  const lines = readFileSync(backup, "utf8").trimEnd().split("\n");
  for (const [name, kept] of [
    ["cut", lines.slice(0, -3)],
    ["changed", lines.map((line, index) => (index === 4 ? line.replace("desk", "bench") : line))],
    ["swapped", [...lines.slice(0, 2), lines[3], lines[2], ...lines.slice(4)]],
  ] as const) {
    writeFileSync(place(`${name}.ndjson`), kept.join("\n"));
    const to = place(`from-${name}.sqlite`);
    expect(await say(["restore", place(`${name}.ndjson`), "--to", to]), name).toMatchObject({
      exit: 65,
      said: { refused: "not-a-backup" },
    });
    expect(existsSync(to)).toBe(false);
  }
});
