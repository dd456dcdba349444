import {
  chainEntry,
  chainHash,
  CHAIN_START,
  contentHashOf,
  contentLeaf,
  merkleTree,
  type Answer,
  type Checkpoint,
  type EventStore,
  type Offer,
  type StoredEvent,
} from "../../register/index.ts";
import { memoryDwellStore } from "./dwell-store.ts";

/** The record in memory: nothing outlives the process. Written apart from the SQL stores, as the twin they are held to. */
export function openMemoryStore(): EventStore {
  const log: StoredEvent[] = [];
  const days = new Map<string, Checkpoint>();
  const head = () => ({ position: log.length, chainHash: log.at(-1)?.chainHash ?? CHAIN_START });
  const ofSubject = (subject: string) => log.filter((event) => event.subject === subject);

  const append = (offer: Offer): Answer => {
    const first = new Map<string, string>(log.map(({ id, contentHash }) => [id, contentHash]));
    for (const event of offer.events) {
      if (event.subject !== offer.subject) throw new RangeError(`event ${event.id} belongs to ${event.subject}`);
      if (contentHashOf(event) !== event.contentHash)
        return { kind: "refused", code: "wrong-content-hash", id: event.id };
    }
    for (const { id, contentHash } of offer.events) {
      if ((first.get(id) ?? contentHash) !== contentHash)
        return { kind: "refused", code: "id-stands-for-other-content", id };
      first.set(id, contentHash);
    }
    const kept = new Set(log.map(({ id }) => id));
    const mine = new Set(offer.events.map(({ id }) => id));
    const since = ofSubject(offer.subject).slice(offer.expectedVersion);
    const version = ofSubject(offer.subject).length;
    const something = offer.events.some(({ id }) => !kept.has(id));
    if (something && (version < offer.expectedVersion || since.some(({ id }) => !mine.has(id))))
      return { kind: "moved on", version, since };
    for (const event of offer.events) {
      if (log.some(({ id }) => id === event.id)) continue;
      const at = { position: log.length + 1, version: ofSubject(offer.subject).length + 1 };
      // through JSON, as a disk would: the caller's object may change later
      const copy = JSON.parse(JSON.stringify(event)) as StoredEvent;
      log.push({ ...copy, ...at, chainHash: chainHash(head().chainHash, chainEntry(event, at)) });
    }
    const events = offer.events.map(({ id }) => log.find((event) => event.id === id) as StoredEvent);
    return { kind: "accepted", events, version: ofSubject(offer.subject).length };
  };

  return {
    append: async (offer) => append(offer),
    readSubject: async (subject, afterVersion = 0) => ofSubject(subject).slice(afterVersion),
    readAfter: async (position, limit) => log.slice(position, position + limit),
    head: async () => head(),
    checkpoints: async () => [...days.values()].sort((a, b) => (a.day < b.day ? -1 : 1)),
    checkpoint: async (day) => {
      const tree = merkleTree();
      for (const { contentHash } of log) tree.add(contentLeaf(contentHash));
      const made = { day, ...head(), treeRoot: tree.root() };
      days.set(day, made);
      return made;
    },
    dwell: memoryDwellStore(),
    close: async () => undefined,
  };
}
