import {
  CHAIN_START,
  chainHash,
  contentHashOf,
  type Answer,
  type Checkpoint,
  type EventStore,
  type Head,
  type Offer,
  type StoredEvent,
  type Subject,
} from "../../src/register/index.ts";

/** A store in memory that keeps the port's promises but durability: the routes are tested without a disk. */
export class MemoryStore implements EventStore {
  readonly events: StoredEvent[] = [];

  append({ subject, expectedVersion, events }: Offer): Promise<Answer> {
    const mine = this.events.filter((event) => event.subject === subject);
    const known = new Map(this.events.map((event) => [event.id, event]));
    const changed = events.find((event) => contentHashOf(event) !== event.contentHash);
    if (changed) return Promise.resolve({ kind: "refused", code: "wrong-content-hash", id: changed.id });
    const other = events.find(({ id, contentHash }) => (known.get(id)?.contentHash ?? contentHash) !== contentHash);
    if (other) return Promise.resolve({ kind: "refused", code: "id-stands-for-other-content", id: other.id });
    const fresh = events.filter(({ id }) => !known.has(id));
    if (fresh.length > 0 && mine.length !== expectedVersion) {
      return Promise.resolve({ kind: "moved on", version: mine.length, since: mine.slice(expectedVersion) });
    }
    for (const event of fresh) {
      const before = this.events.at(-1);
      const version = this.events.filter((one) => one.subject === subject).length + 1;
      this.events.push({
        ...event,
        position: (before?.position ?? 0) + 1,
        version,
        chainHash: chainHash(before?.chainHash ?? CHAIN_START, event.contentHash),
      });
    }
    const stored = events.map(({ id }) => this.events.find((event) => event.id === id) as StoredEvent);
    const version = this.events.filter((event) => event.subject === subject).length;
    return Promise.resolve({ kind: "accepted", events: stored, version });
  }

  readSubject(subject: Subject, afterVersion = 0): Promise<readonly StoredEvent[]> {
    return Promise.resolve(this.events.filter((event) => event.subject === subject && event.version > afterVersion));
  }

  readAfter(position: number, limit: number): Promise<readonly StoredEvent[]> {
    return Promise.resolve(this.events.slice(position, position + limit));
  }

  head(): Promise<Head> {
    const last = this.events.at(-1);
    return Promise.resolve({ position: last?.position ?? 0, chainHash: last?.chainHash ?? CHAIN_START });
  }

  checkpoints(): Promise<readonly Checkpoint[]> {
    return Promise.resolve([]);
  }

  async checkpoint(day: string): Promise<Checkpoint> {
    return { ...(await this.head()), day, treeRoot: "" };
  }

  close(): Promise<void> {
    return Promise.resolve();
  }
}
