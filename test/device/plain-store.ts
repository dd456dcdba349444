import {
  CHAIN_START,
  chainEntry,
  chainHash,
  contentHashOf,
  type Answer,
  type Offer,
  type StoredEvent,
} from "../../src/register/index.ts";

/** The shortest store that keeps the contract of append, for tests of the other side; it can go back to an older day. */
export class PlainStore {
  events: StoredEvent[] = [];

  append({ subject, expectedVersion, events }: Offer): Answer {
    for (const event of events) {
      if (contentHashOf(event) !== event.contentHash) return refused("wrong-content-hash", event.id);
      const held = this.events.find(({ id }) => id === event.id);
      if (held && held.contentHash !== event.contentHash) return refused("id-stands-for-other-content", event.id);
    }
    const own = this.events.filter((event) => event.subject === subject);
    const fresh = events.filter(({ id }) => !own.some((event) => event.id === id));
    if (fresh.length > 0 && own.length !== expectedVersion) {
      return { kind: "moved on", version: own.length, since: own.slice(expectedVersion) };
    }
    for (const [index, event] of fresh.entries()) {
      const position = this.events.length + 1;
      const version = own.length + index + 1;
      const before = this.events.at(-1)?.chainHash ?? CHAIN_START;
      this.events.push({
        ...event,
        position,
        version,
        chainHash: chainHash(before, chainEntry(event, { position, version })),
      });
    }
    const ids = new Set(events.map(({ id }) => id));
    return {
      kind: "accepted",
      events: this.events.filter(({ id }) => ids.has(id)),
      version: own.length + fresh.length,
    };
  }

  readAfter(position: number, limit: number): readonly StoredEvent[] {
    return this.events.slice(position, position + limit);
  }

  head(): { readonly position: number; readonly chainHash: string } {
    return { position: this.events.length, chainHash: this.events.at(-1)?.chainHash ?? CHAIN_START };
  }

  /** As if an older backup had been restored: everything after a position is gone. */
  goBackTo(position: number): void {
    this.events = this.events.slice(0, position);
  }
}

const refused = (code: "wrong-content-hash" | "id-stands-for-other-content", id: string): Answer => ({
  kind: "refused",
  code,
  id,
});
