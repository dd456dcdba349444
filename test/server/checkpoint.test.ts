import { afterEach, expect, test, vi } from "vitest";
import { verifyStore } from "../../src/register/index.ts";
import { keepCheckpoints } from "../../src/server/record/keep-checkpoints.ts";
import { openSqlite, sqlEventStore } from "../../src/store/index.ts";
import { measured, sealed } from "./server-kit.ts";

afterEach(() => vi.useRealTimers());

test("each day's head is kept, and a record cut off behind it no longer verifies", async () => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "Date"], now: Date.parse("2031-03-05T22:30:00Z") });
  const connection = await openSqlite(":memory:");
  const store = await sqlEventStore(connection);
  const write = async (subject: "patient:a" | "patient:b") =>
    store.append({
      subject,
      expectedVersion: 0,
      events: [sealed(subject, "PatientRegistered", { name: measured("Invented Heron") })],
    });
  const lines: string[] = [];
  const end = await keepCheckpoints(
    store,
    () => new Date(),
    (line) => lines.push(line),
  );
  expect(await store.checkpoints()).toEqual([]); // an empty record has no head
  await write("patient:a");
  await vi.advanceTimersByTimeAsync(3_600_000);
  await write("patient:b");
  await vi.advanceTimersByTimeAsync(3_600_000);
  await vi.waitFor(async () => expect(await store.checkpoints()).toHaveLength(2));
  expect((await store.checkpoints()).map(({ day, position }) => [day, position])).toEqual([
    ["2031-03-05", 1],
    ["2031-03-06", 2],
  ]);
  expect((await verifyStore(store)).kind).toBe("whole");
  for (const { name } of await connection.all<{ name: string }>(
    "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'event'",
  )) {
    await connection.run(`DROP TRIGGER ${name}`);
  }
  await connection.run("DELETE FROM event WHERE position = 2");
  expect(await verifyStore(store)).toMatchObject({ kind: "broken", first: { code: "cut-off", id: "2031-03-06" } });
  expect(lines).toEqual([]);
  end();
  await store.close();
});
