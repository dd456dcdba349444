import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  evolveHistory,
  initialHistory,
  readHistory,
  type EventStore,
  type History,
  type SealedEvent,
  type Subject,
} from "../src/register/index.ts";
import { openEngine, openStore } from "../src/store/index.ts";
import { inventedEntry } from "../test/invented-entry.ts";

/** A year of one line in daily use: a few events a day. */
const YEAR = 1000;
const EVENTS = Number(process.env["VEINWRIGHT_EVENTS"] ?? 100_000);
const APPENDS = 2000;

const invented = (subject: Subject, id: string): SealedEvent =>
  inventedEntry({
    id,
    subject,
    type: "LineCared",
    data: { outsideCm: { value: 2.5, origin: "measured" }, note: "x".repeat(120) },
  });

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const since = performance.now();
  await work();
  return (performance.now() - since) / 1000;
}

/** Appends, each waited for by the client that sent it, with so many clients at once. */
async function appendRate(file: string, clients: number): Promise<number> {
  const store = await openStore(file);
  const events = Array.from({ length: clients }, (_, client) =>
    Array.from({ length: Math.ceil(APPENDS / clients) }, (_, at) => invented(`line:${client}`, `${client}-${at}`)),
  );
  const taken = await seconds(() =>
    Promise.all(
      events.map(async (mine, client) => {
        for (const [expectedVersion, event] of mine.entries())
          await store.append({ subject: `line:${client}`, expectedVersion, events: [event] });
      }),
    ),
  );
  await store.close();
  return events.flat().length / taken;
}

/** The least a durable store can do: the same rows into the same table, one commit each, and nothing decided. */
async function bareRate(file: string, rowsFrom: string): Promise<number> {
  await (await openStore(file)).close();
  const source = await openEngine(rowsFrom);
  const rows = source.all("SELECT * FROM event ORDER BY position", []).map((row) => Object.values(row) as string[]);
  source.close();
  const engine = await openEngine(file);
  const taken = await seconds(async () => {
    for (const row of rows) {
      engine.run("BEGIN IMMEDIATE", []);
      engine.run("INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?)", row);
      engine.run("COMMIT", []);
    }
  });
  engine.close();
  return rows.length / taken;
}

async function fill(store: EventStore): Promise<void> {
  const lines = Math.ceil((EVENTS - YEAR) / 50);
  const send = (subject: Subject, count: number) =>
    store.append({
      subject,
      expectedVersion: 0,
      events: Array.from({ length: count }, (_, at) => invented(subject, `${subject.slice(5)}-${at}`)),
    });
  await send("line:year", YEAR);
  for (let from = 0; from < lines; from += 20)
    await Promise.all(Array.from({ length: Math.min(20, lines - from) }, (_, line) => send(`line:${from + line}`, 50)));
}

/** Every history, held in memory at once; gives back the memory that took, in MB. */
async function replay(store: EventStore): Promise<number> {
  const histories = new Map<Subject, History>();
  for (let at = 0; ;) {
    const batch = await store.readAfter(at, 5000);
    for (const event of batch)
      histories.set(event.subject, evolveHistory(histories.get(event.subject) ?? initialHistory(event.subject), event));
    if (batch.length === 0) break;
    at = batch.at(-1)?.position ?? at;
  }
  for (const history of histories.values()) readHistory(history);
  return process.memoryUsage().heapUsed / 1e6;
}

export async function benchmarkStore() {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-benchmark-"));
  const results: { name: string; median: number; unit: string }[] = [];
  try {
    const rates = new Map<string, number[]>();
    const note = (name: string, rate: number) => rates.set(name, [...(rates.get(name) ?? []), rate]);
    // a server is warm: the first thousands of appends measure the compiler
    for (let round = 0; round < 4; round += 1) await appendRate(":memory:", 8);
    for (let round = 0; round < 5; round += 1) {
      for (const clients of [1, 8, 32])
        note(
          `store: appends, ${clients} clients`,
          await appendRate(join(folder, `${round}-${clients}.sqlite`), clients),
        );
      note(
        "store: bare inserts, same durability",
        await bareRate(join(folder, `${round}-bare.sqlite`), join(folder, `${round}-1.sqlite`)),
      );
    }
    const [one = [], bare = []] = [...rates.entries()]
      .filter(([name]) => name.includes(" 1 clients") || name.includes("bare"))
      .map(([, all]) => all);
    // side by side in each round: the disk of a shared machine changes from one second to the next
    const ratio = median(one.map((rate, round) => rate / (bare[round] ?? Number.NaN)));
    results.push({ name: "store: one client beside bare inserts", median: ratio, unit: "of the rate" });
    for (const [name, all] of rates) results.push({ name, median: median(all), unit: "a second" });
    const store = await openStore(join(folder, "full.sqlite"));
    await fill(store);
    const checkpoint = await seconds(() => store.checkpoint("2031-03-05"));
    const open = [];
    for (let round = 0; round < 20; round += 1)
      open.push(
        1000 *
          (await seconds(async () => {
            const events = await store.readSubject("line:year");
            readHistory({ subject: "line:year", version: events.length, events });
          })),
      );
    let heapMb = Number.NaN;
    const replayed = await seconds(async () => {
      heapMb = await replay(store);
    });
    results.push(
      { name: `store: a line of ${YEAR} events opened`, median: median(open), unit: "ms" },
      { name: `store: ${EVENTS} events read and folded`, median: replayed, unit: "s" },
      { name: `store: heap while ${EVENTS} events are held`, median: heapMb, unit: "MB" },
      { name: `store: first checkpoint over ${EVENTS} events`, median: checkpoint, unit: "s" },
    );
    await store.close();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return results;
}
