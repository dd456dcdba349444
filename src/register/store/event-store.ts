import type { DwellStore } from "./dwell-store.ts";
import type { SealedEvent, StoredEvent, Subject } from "../event/index.ts";

/** Events of one subject, offered with the version the writer last saw. */
export interface Offer {
  readonly subject: Subject;
  /** How many events of the subject the store must hold for these to be taken; a fresh subject has 0. */
  readonly expectedVersion: number;
  readonly events: readonly SealedEvent[];
}

/**
 * What a store did with an offer.
 *   accepted      every event is durable; those it already had keep the place they had
 *   moved on      the subject has other events than the writer saw: those are here, nothing was taken
 *   refused       the event is not what it says (its hash is wrong, or its id stands for other content)
 */
export type Answer =
  | { readonly kind: "accepted"; readonly events: readonly StoredEvent[]; readonly version: number }
  | { readonly kind: "moved on"; readonly version: number; readonly since: readonly StoredEvent[] }
  | {
      readonly kind: "refused";
      readonly code: "wrong-content-hash" | "id-stands-for-other-content";
      readonly id: string;
    };

export interface Head {
  /** Position of the last event, 0 for an empty store. */
  readonly position: number;
  readonly chainHash: string;
}

/** The head of one day, to be kept elsewhere: a chain alone does not show that its end was cut off. */
export interface Checkpoint extends Head {
  /** Civil date, YYYY-MM-DD. */
  readonly day: string;
  /** Root of the RFC 6962 tree over the content hashes of every event up to the position. */
  readonly treeRoot: string;
}

/**
 * Where events are kept. One contract suite (test/store-contract) runs on every implementation.
 * An acknowledged append survives a crash of the process and, where the disk keeps its word, of the machine.
 */
export interface EventStore {
  append(offer: Offer): Promise<Answer>;
  /** The events of a subject in store order, from a version on. */
  readSubject(subject: Subject, afterVersion?: number): Promise<readonly StoredEvent[]>;
  /** Events in store order after a position, at most `limit`. */
  readAfter(position: number, limit: number): Promise<readonly StoredEvent[]>;
  head(): Promise<Head>;
  checkpoints(): Promise<readonly Checkpoint[]>;
  /** Keeps the day's head; the same day again replaces it. */
  checkpoint(day: string): Promise<Checkpoint>;
  /** The table of lines that is folded from these events, kept beside them. */
  readonly dwell: DwellStore;
  close(): Promise<void>;
}
