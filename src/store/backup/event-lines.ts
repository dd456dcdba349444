import { createReadStream, closeSync, openSync, writeSync } from "node:fs";
import { createInterface } from "node:readline";
import type { Checkpoint, EventStore, Head, StoredEvent } from "../../register/index.ts";
import { StoreRefused } from "./store-refused.ts";

const FORMAT = "veinwright events 1";
const BATCH = 1000;

/**
 * Writes the record as lines of JSON: what it is and its checkpoints, every event in store order, and the head as the
 * last line, so that a file that was cut off shows. The file must not be there yet. Returns the head written.
 */
export async function writeEventLines(store: EventStore, file: string): Promise<Head> {
  const head = await store.head();
  const checkpoints = (await store.checkpoints()).filter(({ position }) => position <= head.position);
  const out = openSync(file, "wx");
  try {
    writeSync(out, `${JSON.stringify({ format: FORMAT, checkpoints })}\n`);
    for (let at = 0; at < head.position;) {
      const events = await store.readAfter(at, Math.min(BATCH, head.position - at));
      if (events.length === 0) throw new Error(`the record ends at ${at}, before its head`);
      writeSync(out, events.map((event) => `${JSON.stringify(event)}\n`).join(""));
      at = events.at(-1)?.position ?? head.position;
    }
    writeSync(out, `${JSON.stringify({ head })}\n`);
  } finally {
    closeSync(out);
  }
  return head;
}

/** Reads event lines into an empty store; each event must get the place and the link it had. */
export async function readEventLines(file: string, store: EventStore): Promise<void> {
  if ((await store.head()).position > 0) throw new StoreRefused("already-there", "the database");
  const refuse = (cause?: unknown) => new StoreRefused("not-a-backup", file, cause);
  let days: Map<number, string[]> | undefined;
  let end: Head | undefined;
  let waiting: StoredEvent[] = [];
  const marks = async (position: number): Promise<void> => {
    for (const day of days?.get(position) ?? []) await store.checkpoint(day);
  };
  const take = async (): Promise<void> => {
    const events = waiting;
    waiting = [];
    const answers = await Promise.all(
      events.map((event) => {
        const { position: _position, version, chainHash: _chainHash, ...sealed } = event;
        return store.append({ subject: event.subject, expectedVersion: version - 1, events: [sealed] });
      }),
    );
    for (const [index, answer] of answers.entries()) {
      const placed = answer.kind === "accepted" ? answer.events[0] : undefined;
      if (placed?.chainHash !== events[index]?.chainHash) throw refuse();
    }
    const last = events.at(-1);
    if (last) await marks(last.position);
  };
  for await (const line of createInterface({ input: createReadStream(file, "utf8"), crlfDelay: Infinity })) {
    let said: { format?: string; checkpoints?: readonly Checkpoint[]; head?: Head } & Partial<StoredEvent>;
    try {
      said = JSON.parse(line) as typeof said;
    } catch (error) {
      throw refuse(error);
    }
    if (days === undefined) {
      if (said.format !== FORMAT || !Array.isArray(said.checkpoints)) throw refuse();
      days = new Map();
      for (const { day, position } of said.checkpoints as readonly Checkpoint[])
        days.set(position, [...(days.get(position) ?? []), day]);
      await marks(0);
    } else if (said.head) end = said.head;
    else {
      waiting.push(said as StoredEvent);
      if (days.has(waiting.at(-1)?.position ?? 0) || waiting.length >= BATCH) await take();
    }
  }
  await take();
  const head = await store.head();
  if (end?.position !== head.position || end.chainHash !== head.chainHash) throw refuse();
}
