import type { Instant } from "../src/core/calendar/index.ts";
import {
  evolveHistory,
  initialHistory,
  seal,
  type History,
  type RegisterEvent,
  type SealedEvent,
  type StoredEvent,
  type Subject,
} from "../src/register/index.ts";

/** What a test says of an entry; the rest is the same invented desk in one invented hour. */
export type Said = Omit<Partial<RegisterEvent>, "happenedAt" | "writtenAt" | "data"> &
  Pick<RegisterEvent, "subject" | "type"> & {
    /** When it happened, and when it was written unless that is said as well. */
    readonly at?: string;
    readonly writtenAt?: string;
    readonly data?: object;
  };

/** Who counts a ward's month. */
export const WARD_NURSE = { initials: "RB", role: "ward nurse", account: "" } as const;

/** Who sets what a service keeps of its own numbers. */
export const LEAD = { initials: "LO", role: "lead", account: "" } as const;

const HOUR = "2026-03-01T10:00Z";

/** A sealed entry that says what it is given and is invented in all else. */
export function inventedEntry({ at = HOUR, writtenAt = at, data = {}, ...said }: Said): SealedEvent {
  return seal({
    id: "e1",
    shape: 1,
    happenedAt: at as Instant,
    writtenAt: writtenAt as Instant,
    author: { initials: "MK", role: "inserter", account: "" },
    device: "desk",
    policyVersion: "1",
    seen: 0,
    data: data as RegisterEvent["data"],
    ...said,
  });
}

/** An entry as a store keeps it at one place of its subject's history; its chain is not looked at. */
export const keptEntry = (entry: SealedEvent, place: number): StoredEvent => ({
  ...entry,
  position: place,
  version: place,
  chainHash: "",
});

/** What is known of a subject when these were kept one after the other. */
export const historyOfEntries = (subject: Subject, entries: readonly SealedEvent[]): History =>
  entries.reduce(
    (history, entry) => evolveHistory(history, keptEntry(entry, history.version + 1)),
    initialHistory(subject),
  );
