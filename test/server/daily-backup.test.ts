import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { isLate, sayBackups } from "../../src/language/index.ts";
import { verifyStore } from "../../src/register/index.ts";
import { keepDailyBackups, type DailyBackup } from "../../src/server/record/daily-backup.ts";
import { backupStore, openSqliteStore } from "../../src/store/index.ts";
import { measured, sealed, serverKit } from "./server-kit.ts";

const HOUR_MS = 3_600_000;
let root = "";
let daily: DailyBackup | undefined;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "veinwright-daily-"));
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "Date"], now: Date.parse("2031-03-05T09:30:00Z") });
});
afterEach(() => {
  void daily?.end();
  vi.useRealTimers();
  rmSync(root, { recursive: true });
});

const now = () => new Date();
const copies = () => readdirSync(join(root, "daily")).sort();
const days = () => copies().map((name) => name.slice("veinwright-".length, "veinwright-2031-03-05".length));

/** A day passes hour by hour, each look given the time to end. */
async function hours(count: number): Promise<void> {
  for (let hour = 0; hour < count; hour += 1) {
    await vi.advanceTimersByTimeAsync(HOUR_MS);
    await new Promise((resolve) => setImmediate(resolve));
    await vi.waitFor(() => expect(copies().some((name) => name.endsWith(".partial"))).toBe(false));
  }
}

test("one verified copy a day, the oldest taken away beyond those kept, and nothing else in the folder touched", async () => {
  const address = join(root, "veinwright.sqlite");
  const store = await openSqliteStore(address);
  const write = async (subject: "patient:a" | "patient:b") =>
    store.append({
      subject,
      expectedVersion: 0,
      events: [sealed(subject, "PatientRegistered", { name: measured("Heron") })],
    });
  await write("patient:a");
  let made = 0;
  const make = async (folder: string) => {
    made += 1;
    const stamp = now().toISOString().replace(/\.\d+/, "");
    return { good: (await backupStore(address, folder, stamp)).verification.kind === "whole" };
  };
  const lines: string[] = [];
  daily = keepDailyBackups({ folder: join(root, "daily"), keep: 3, make }, now, (line) => lines.push(line));
  await daily.looked;
  expect(copies()).toEqual(["veinwright-2031-03-05T09-30-00Z.sqlite"]);
  writeFileSync(join(root, "daily", "notes.txt"), "of the house");
  await hours(10); // still the same day
  expect(made).toBe(1);
  await write("patient:b");
  await hours(24 * 4);
  expect(made).toBe(5);
  expect(days().slice(1)).toEqual(["2031-03-07", "2031-03-08", "2031-03-09"]);
  expect(copies()[0]).toBe("notes.txt");
  const newest = await openSqliteStore(join(root, "daily", copies().at(-1) ?? ""));
  expect(await verifyStore(newest)).toMatchObject({ kind: "whole", events: 2 });
  await newest.close();
  expect(daily.standing()).toMatchObject({ keep: 3, count: 3, newestAt: "2031-03-09T00:30:00Z", failed: "" });
  // started again on the same day, it makes no second one
  await daily.end();
  daily = keepDailyBackups({ folder: join(root, "daily"), keep: 3, make }, now, (line) => lines.push(line));
  await daily.looked;
  expect([made, lines]).toEqual([5, []]);
  await store.close();
});

test("a copy that fails takes none of the good ones away, is told, and is tried again the next hour", async () => {
  const good = ["2031-03-02", "2031-03-03", "2031-03-04"].map((day) => `veinwright-${day}T02-00-00Z.sqlite`);
  const folder = join(root, "daily");
  mkdirSync(folder);
  for (const name of good) writeFileSync(join(folder, name), "x");
  const answers: (boolean | Error)[] = [false, new RangeError("disk"), true];
  const make = async (into: string) => {
    const answer = answers.shift();
    if (answer instanceof Error) throw answer;
    if (answer) writeFileSync(join(into, `veinwright-${now().toISOString().slice(0, 10)}T11-30-00Z.sqlite`), "x");
    return { good: answer === true };
  };
  const lines: string[] = [];
  daily = keepDailyBackups({ folder, keep: 3, make }, now, (line) => lines.push(line));
  await daily.looked;
  expect([daily.standing().failed, copies()]).toEqual(["not whole", good]);
  const kit = await serverKit({ backups: daily.standing });
  const cookie = await kit.person("keeper", ["administrator"]);
  const asked = async () =>
    (await kit.ask("GET", "/api/backup", { cookie })).json() as Promise<Parameters<typeof isLate>[0]>;
  expect(isLate(await asked())).toBe(true);
  expect(sayBackups(await asked())).toContain("The last try failed.");
  await hours(1);
  expect([daily.standing().failed, copies()]).toEqual(["RangeError", good]);
  await hours(1);
  expect([daily.standing().failed, days()]).toEqual(["", ["2031-03-03", "2031-03-04", "2031-03-05"]]);
  expect(lines).toEqual(['{"dailyBackup":"not whole"}', '{"dailyBackup":"RangeError"}']);
});

test("a folder that cannot be looked into fails the backup and not the server", async () => {
  const folder = join(root, "a-file");
  writeFileSync(folder, "no folder");
  const lines: string[] = [];
  const make = async () => ({ good: true });
  daily = keepDailyBackups({ folder, keep: 3, make }, now, (line) => lines.push(line));
  await daily.looked;
  expect(daily.standing()).toEqual({ folder, keep: 3, count: 0, newestAt: "", failed: "Error" });
  expect(lines).toEqual(['{"dailyBackup":"Error"}']);
});

test("backups of a clock that went ahead are neither the newest nor push the true ones out", async () => {
  const folder = join(root, "daily");
  mkdirSync(folder);
  const ahead = ["2099-01-01", "2099-01-02"].map((day) => `veinwright-${day}T02-00-00Z.sqlite`);
  for (const name of ahead) writeFileSync(join(folder, name), "x");
  const make = async (into: string) => {
    writeFileSync(join(into, `veinwright-${now().toISOString().slice(0, 10)}T09-30-00Z.sqlite`), "x");
    return { good: true };
  };
  daily = keepDailyBackups({ folder, keep: 1, make }, now, () => undefined);
  await daily.looked;
  expect(copies()).toEqual(["veinwright-2031-03-05T09-30-00Z.sqlite", ...ahead]);
  expect(daily.standing()).toMatchObject({ count: 1, newestAt: "2031-03-05T09:30:00Z", failed: "" });
});

test("the age is told, and late is a day and two hours", () => {
  const at = (newestAt: string, failed = "") => ({
    folder: "/kept",
    keep: 14,
    count: 9,
    newestAt,
    failed,
    now: "2031-03-05T12:00:00Z",
  });
  expect(sayBackups(at("2031-03-05T07:30:00Z"))).toBe("Newest daily backup: 4 h old, verified. 9 of 14 kept in /kept.");
  expect(isLate(at("2031-03-04T10:00:00Z"))).toBe(false);
  expect(isLate(at("2031-03-04T09:59:59Z"))).toBe(true);
  expect(isLate(at("2031-03-05T07:30:00Z", "RangeError"))).toBe(true);
  expect(isLate(at(""))).toBe(true);
  expect(sayBackups(at(""))).toBe("No daily backup yet in /kept.");
});
