import {
  CHAIN_START,
  chainEntry,
  chainHash,
  contentHashOf,
  contentLeaf,
  merkleTree,
  type StoredEvent,
} from "../event/index.ts";
import type { Checkpoint, EventStore, Head } from "./event-store.ts";

/**
 * What can be wrong with a store. "found" and "expected" are hashes or counts, by the code:
 *   unreadable        the text of the event at the position is not what a store writes
 *   position-missing  an event was taken out, or put in, before this one
 *   version-missing   the same within one subject
 *   content-changed   the event no longer hashes to its own seal
 *   chain-broken      the link does not follow from the link before and this entry
 *   cut-off           a head kept elsewhere, or a checkpoint, lies beyond the last event
 *   checkpoint-chain, checkpoint-tree  the day's head or tree differs from what the events give
 */
export type BreakCode =
  | "unreadable"
  | "position-missing"
  | "version-missing"
  | "content-changed"
  | "chain-broken"
  | "cut-off"
  | "checkpoint-chain"
  | "checkpoint-tree";

export interface BrokenLink {
  readonly code: BreakCode;
  readonly position: number;
  /** The event's identifier, or the day of the checkpoint; "" where neither can be read. */
  readonly id: string;
  readonly found: string;
  readonly expected: string;
}

export type Verification =
  | {
      readonly kind: "whole";
      readonly events: number;
      readonly subjects: number;
      readonly checkpoints: number;
      readonly head: Head;
      readonly treeRoot: string;
    }
  | { readonly kind: "broken"; readonly verified: number; readonly first: BrokenLink };

const BATCH = 1000;

/**
 * Walks a whole store and names the first link that is broken, in store order. `outside` are heads that were kept
 * elsewhere: without one, an end that was cut off together with its checkpoints cannot be seen.
 */
export async function verifyStore(store: EventStore, outside: readonly Head[] = []): Promise<Verification> {
  const marks = [...(await store.checkpoints()), ...outside].sort((a, b) => a.position - b.position);
  const tree = merkleTree();
  const versions = new Map<string, number>();
  let head: Head = { position: 0, chainHash: CHAIN_START };
  let nextMark = 0;
  const broken = (first: BrokenLink): Verification => ({ kind: "broken", verified: head.position, first });
  const markFault = (): BrokenLink | undefined => {
    for (; (marks[nextMark]?.position ?? Infinity) <= head.position; nextMark += 1) {
      const fault = markBreak(marks[nextMark] as Checkpoint | Head, head, tree.root());
      if (fault !== undefined) return fault;
    }
    return undefined;
  };
  for (;;) {
    const early = markFault();
    if (early !== undefined) return broken(early);
    const batch = await readBatch(store, head.position);
    if (batch === undefined)
      return broken({ code: "unreadable", position: head.position + 1, id: "", found: "", expected: "" });
    if (batch.length === 0) break;
    for (const event of batch) {
      const version = (versions.get(event.subject) ?? 0) + 1;
      const fault = linkBreak(event, head, version);
      if (fault !== undefined) return broken(fault);
      versions.set(event.subject, version);
      tree.add(contentLeaf(event.contentHash));
      head = { position: event.position, chainHash: event.chainHash };
      const atMark = markFault();
      if (atMark !== undefined) return broken(atMark);
    }
  }
  const beyond = marks[nextMark];
  if (beyond !== undefined)
    return broken({
      code: "cut-off",
      position: beyond.position,
      id: "day" in beyond ? String(beyond.day) : "",
      found: String(head.position),
      expected: String(beyond.position),
    });
  const checkpoints = marks.length - outside.length;
  return { kind: "whole", events: head.position, subjects: versions.size, checkpoints, head, treeRoot: tree.root() };
}

/** The next events; where one among them cannot be read, those before it; undefined where it is the very next. */
async function readBatch(store: EventStore, after: number): Promise<readonly StoredEvent[] | undefined> {
  for (const limit of [BATCH, 1]) {
    try {
      return await store.readAfter(after, limit);
    } catch (error) {
      if (!(error instanceof UnreadableEvent)) throw error;
    }
  }
  return undefined;
}

/** A store's row whose text is not the JSON of an event. */
export class UnreadableEvent extends Error {}

function linkBreak(event: StoredEvent, head: Head, version: number): BrokenLink | undefined {
  const at = { position: event.position, id: event.id };
  if (event.position !== head.position + 1)
    return { ...at, code: "position-missing", found: String(event.position), expected: String(head.position + 1) };
  if (event.version !== version)
    return { ...at, code: "version-missing", found: String(event.version), expected: String(version) };
  const content = contentHashOf(event);
  if (content !== event.contentHash)
    return { ...at, code: "content-changed", found: content, expected: event.contentHash };
  const link = chainHash(head.chainHash, chainEntry(event, event));
  if (link !== event.chainHash) return { ...at, code: "chain-broken", found: event.chainHash, expected: link };
  return undefined;
}

function markBreak(mark: Checkpoint | Head, head: Head, root: string): BrokenLink | undefined {
  if (mark.position < head.position) return undefined;
  const at = { position: mark.position, id: "day" in mark ? mark.day : "" };
  if (mark.chainHash !== head.chainHash)
    return { ...at, code: "checkpoint-chain", found: mark.chainHash, expected: head.chainHash };
  if ("treeRoot" in mark && mark.treeRoot !== root)
    return { ...at, code: "checkpoint-tree", found: mark.treeRoot, expected: root };
  return undefined;
}
