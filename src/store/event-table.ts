import {
  CHAIN_START,
  chainEntry,
  chainHash,
  contentHashOf,
  type Answer,
  type EventStore,
  type Head,
  type Offer,
  type RegisterEvent,
  type StoredEvent,
  type Subject,
} from "../register/index.ts";
import type { SqlConnection } from "./sql/index.ts";

interface EventRow {
  readonly position: number;
  readonly version: number;
  readonly body: string;
  readonly content_hash: string;
  readonly chain_hash: string;
}

/** What a server asks of the record's store. */
export type RecordPort = Pick<EventStore, "append" | "readSubject" | "readAfter" | "head" | "close">;

/** Events in one table, in the order they were taken; an offer is taken whole inside one transaction. */
export async function openEventTable(connection: SqlConnection): Promise<RecordPort> {
  const strict = connection.dialect === "sqlite" ? " STRICT" : "";
  await connection.run(
    `CREATE TABLE IF NOT EXISTS register_event (
      position INTEGER PRIMARY KEY,
      id TEXT NOT NULL UNIQUE,
      subject TEXT NOT NULL,
      version INTEGER NOT NULL,
      body TEXT NOT NULL,
      content_hash TEXT NOT NULL,
      chain_hash TEXT NOT NULL,
      UNIQUE (subject, version)
    )${strict}`,
  );
  const head = async (inside: SqlConnection): Promise<Head> => {
    const [last] = await inside.all<EventRow>("SELECT * FROM register_event ORDER BY position DESC LIMIT 1");
    return last ? { position: last.position, chainHash: last.chain_hash } : { position: 0, chainHash: CHAIN_START };
  };
  const readSubject = async (inside: SqlConnection, subject: Subject, after: number) =>
    (
      await inside.all<EventRow>("SELECT * FROM register_event WHERE subject = ? AND version > ? ORDER BY version", [
        subject,
        after,
      ])
    ).map(eventOf);
  return {
    append: (offer) => connection.transaction((inside) => append(inside, offer, { head, readSubject })),
    readSubject: (subject, after = 0) => readSubject(connection, subject, after),
    readAfter: async (position, limit) =>
      (
        await connection.all<EventRow>("SELECT * FROM register_event WHERE position > ? ORDER BY position LIMIT ?", [
          position,
          limit,
        ])
      ).map(eventOf),
    head: () => head(connection),
    close: () => Promise.resolve(), // the connection belongs to whoever opened it
  };
}

async function append(
  inside: SqlConnection,
  { subject, expectedVersion, events }: Offer,
  read: {
    readonly head: (inside: SqlConnection) => Promise<Head>;
    readonly readSubject: (inside: SqlConnection, subject: Subject, after: number) => Promise<readonly StoredEvent[]>;
  },
): Promise<Answer> {
  const stored = new Map<string, StoredEvent>();
  for (const event of events) {
    const { id, contentHash } = event;
    if (contentHashOf(event) !== contentHash) return { kind: "refused", code: "wrong-content-hash", id };
    const [known] = await inside.all<EventRow>("SELECT * FROM register_event WHERE id = ?", [id]);
    if (known && known.content_hash !== contentHash)
      return { kind: "refused", code: "id-stands-for-other-content", id };
    if (known) stored.set(id, eventOf(known));
  }
  const there = await read.readSubject(inside, subject, 0);
  const fresh = events.filter(({ id }) => !stored.has(id));
  if (fresh.length > 0 && there.length !== expectedVersion) {
    return { kind: "moved on", version: there.length, since: there.slice(expectedVersion) };
  }
  let { position, chainHash: chain } = await read.head(inside);
  let version = there.length;
  for (const event of fresh) {
    if (stored.has(event.id)) continue; // the same entry twice in one offer
    position += 1;
    version += 1;
    chain = chainHash(chain, chainEntry(event, position, version));
    await inside.run(
      `INSERT INTO register_event (position, id, subject, version, body, content_hash, chain_hash)
       VALUES (?, ?, ?, ?, ?, ?, ?)`,
      [position, event.id, subject, version, JSON.stringify(event), event.contentHash, chain],
    );
    stored.set(event.id, { ...event, position, version, chainHash: chain });
  }
  return { kind: "accepted", events: events.flatMap(({ id }) => stored.get(id) ?? []), version };
}

const eventOf = ({ body, position, version, content_hash, chain_hash }: EventRow): StoredEvent => ({
  ...(JSON.parse(body) as RegisterEvent),
  contentHash: content_hash,
  position,
  version,
  chainHash: chain_hash,
});
