// Breaks the store on purpose and counts: N kills in the middle of writing (first word, 50 by default), write-ahead logs
// cut at many places, clocks that jump, and an old backup brought back. Anything acknowledged and not there is a fault.
// kill -9 does not try a power cut: the kernel still holds what was written. synchronous=FULL is there for that.
import { spawn } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, rmSync, statSync, truncateSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Instant } from "../src/core/calendar/index.ts";
import { seal, verifyStore, type EventStore, type SealedEvent, type Subject } from "../src/register/index.ts";
import { backupStore, openStore, restoreStore } from "../src/store/index.ts";

const WRITERS = 8;
/** Kills on one file: verifying all of it after each kill grows with what was written. */
const KILLS_A_FILE = 10;

const invented = (subject: Subject, id: string, writtenAt = "2031-03-05T10:30Z"): SealedEvent =>
  seal({
    id,
    subject,
    type: "LineCared",
    shape: 1,
    happenedAt: writtenAt as Instant,
    writtenAt: writtenAt as Instant,
    author: { initials: "AB", role: "ward nurse", account: "" },
    device: "tablet",
    policyVersion: "default 1",
    seen: 0,
    data: { text: id.padEnd(200, "x") },
  });

/** The child: eight writers without end; each place is said aloud only after the store has answered. */
async function writeForever(file: string, cycle: string): Promise<void> {
  const store = await openStore(file);
  await Promise.all(
    Array.from({ length: WRITERS }, async (_, writer) => {
      const subject: Subject = `line:${cycle}-${writer}`;
      for (let version = 0; ; version += 1) {
        const id = `${cycle}-${writer}-${version}`;
        const answer = await store.append({ subject, expectedVersion: version, events: [invented(subject, id)] });
        if (answer.kind !== "accepted") throw new Error(`not taken: ${JSON.stringify(answer)}`);
        writeSync(1, `${id} ${answer.events[0]?.position} ${answer.events[0]?.chainHash}\n`);
      }
    }),
  );
}

/** Starts a writer, lets it write for a while, kills it, and gives back what it had acknowledged. */
async function killed(file: string, cycle: number): Promise<readonly string[]> {
  const child = spawn(process.execPath, ["--import", "tsx", "script/reliability.ts", "--write", file, `c${cycle}`], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let said = "";
  let started = false;
  child.stdout.on("data", (bytes: Buffer) => {
    said += bytes.toString();
    if (started) return;
    started = true;
    setTimeout(() => child.kill("SIGKILL"), 5 + Math.random() * 150);
  });
  const signal = await new Promise((done) => child.on("close", (_code, how) => done(how)));
  if (signal !== "SIGKILL") throw new Error("the writer ended by itself");
  // a line that was cut by the kill was not heard
  return said
    .slice(0, said.lastIndexOf("\n") + 1)
    .trimEnd()
    .split("\n");
}

async function whole(store: EventStore): Promise<number> {
  const verification = await verifyStore(store);
  if (verification.kind === "broken") throw new Error(`broken: ${JSON.stringify(verification.first)}`);
  return verification.events;
}

async function places(store: EventStore): Promise<ReadonlyMap<string, string>> {
  const found = new Map<string, string>();
  for (let at = 0; ;) {
    const batch = await store.readAfter(at, 5000);
    for (const { id, position, chainHash } of batch) found.set(id, `${id} ${position} ${chainHash}`);
    if (batch.length === 0) return found;
    at = batch.at(-1)?.position ?? at;
  }
}

async function kills(folder: string, count: number): Promise<void> {
  let acknowledged = 0;
  let lost = 0;
  let unheard = 0;
  let tears = 0;
  let heard: string[] = [];
  for (let cycle = 0; cycle < count; cycle += 1) {
    const file = join(folder, `kill-${Math.floor(cycle / KILLS_A_FILE)}.sqlite`);
    if (cycle % KILLS_A_FILE === 0) heard = [];
    const said = await killed(file, cycle);
    acknowledged += said.length;
    heard.push(...said);
    if (cycle % KILLS_A_FILE === 0) tears += await tornTails(folder, file);
    const store = await openStore(file);
    const found = await places(store);
    const events = await whole(store);
    await store.close();
    lost += heard.filter((line) => found.get(line.slice(0, line.indexOf(" "))) !== line).length;
    unheard += cycle % KILLS_A_FILE === KILLS_A_FILE - 1 || cycle === count - 1 ? events - heard.length : 0;
  }
  const bound = lost === 0 ? `; upper bound 3/n = ${((3 / count) * 100).toFixed(2)} % a kill` : "";
  console.log(`kill -9: ${count} kills, ${acknowledged} acknowledged, ${lost} lost, 0 chains broken${bound}`);
  console.log(`  (${unheard} more were durable and not yet acknowledged: they keep their place when sent again)`);
  console.log(`torn log: ${tears} cuts, every one opened to a whole prefix`);
  if (lost > 0) process.exitCode = 1;
}

/** Copies a killed file with its log cut at many places: what opens must be an exact beginning of what was written. */
async function tornTails(folder: string, file: string): Promise<number> {
  if (!existsSync(`${file}-wal`)) return 0;
  const copy = join(folder, "torn.sqlite");
  const length = statSync(`${file}-wal`).size;
  const cuts = 40;
  let before = 0;
  for (let cut = 0; cut <= cuts; cut += 1) {
    for (const rest of ["", "-wal", "-shm"]) rmSync(`${copy}${rest}`, { force: true });
    copyFileSync(file, copy);
    copyFileSync(`${file}-wal`, `${copy}-wal`);
    truncateSync(`${copy}-wal`, Math.floor((length * cut) / cuts));
    const store = await openStore(copy);
    const events = await whole(store);
    await store.close();
    if (events < before) throw new Error(`a longer log gave fewer events: ${events} after ${before}`);
    before = events;
  }
  return cuts + 1;
}

/** The store's order is the order of taking: a clock that jumps may not move it, nor break a checkpoint. */
async function clocks(folder: string): Promise<void> {
  const store = await openStore(join(folder, "clock.sqlite"));
  const moments = ["2031-03-05T10:30Z", "2028-03-05T10:30Z", "2032-02-29T23:59Z", "1999-12-31T23:59Z"];
  for (const [index, moment] of moments.entries()) {
    await store.append({
      subject: "line:a",
      expectedVersion: index,
      events: [invented("line:a", `e${index}`, moment)],
    });
    await store.checkpoint(moment.slice(0, 10));
  }
  const order = (await store.readAfter(0, 10)).map(({ id }) => id).join(" ");
  if (order !== "e0 e1 e2 e3") throw new Error(`a clock moved the order: ${order}`);
  await whole(store);
  await store.close();
  console.log(`clock: ${moments.length} jumps back and forward, order and checkpoints hold`);
}

/** An old backup verifies; only a head kept elsewhere shows that it is old. Devices send again, and links come out the same. */
async function oldBackup(folder: string): Promise<void> {
  const file = join(folder, "origin.sqlite");
  const store = await openStore(file);
  const events = Array.from({ length: 200 }, (_, index) => invented("line:a", `e${index}`));
  const send = async (to: EventStore, from: number, end: number): Promise<void> => {
    for (let at = from; at < end; at += 1)
      await to.append({ subject: "line:a", expectedVersion: at, events: events.slice(at, at + 1) });
  };
  await send(store, 0, 120);
  const backup = await backupStore(file, join(folder, "copies"), "2031-03-05T10:00:00Z");
  await send(store, 120, 200);
  const head = await store.head();
  await store.close();
  const place = join(folder, "restored.sqlite");
  await restoreStore(backup.file, place);
  const restored = await openStore(place);
  const seen = await verifyStore(restored, [head]);
  if (seen.kind !== "broken" || seen.first.code !== "cut-off") throw new Error("an old backup passed for the record");
  await send(restored, 0, 200);
  const again = await restored.head();
  await restored.close();
  if (again.chainHash !== head.chainHash) throw new Error("sent again, the links came out otherwise");
  console.log("old backup: verifies alone, is named short by a kept head, and is whole after devices send again");
}

if (process.argv[2] === "--write") await writeForever(process.argv[3] ?? "", process.argv[4] ?? "");
else if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-reliability-"));
  try {
    await clocks(folder);
    await oldBackup(folder);
    await kills(folder, Number(process.argv[2] ?? 50));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
