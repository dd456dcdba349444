import { instantMs, type Instant } from "../../core/calendar/index.ts";
import { isAboutAnEvent, type Correction, type Voiding } from "../catalogue.ts";
import { raiseEvent, type Author, type Json, type StoredEvent, type Subject } from "../event/index.ts";
import type { Entry, Recorded } from "../field/index.ts";

/** Everything that was written about a subject, in the order the store took it. */
export interface History {
  readonly subject: Subject;
  readonly version: number;
  readonly events: readonly StoredEvent[];
}

export const initialHistory = (subject: Subject): History => ({ subject, version: 0, events: [] });

/** Adds the next event of the subject, in store order; an older shape is raised to the one of today. */
export const evolveHistory = (history: History, event: StoredEvent): History => ({
  subject: history.subject,
  version: event.version,
  events: [...history.events, raiseEvent(event)],
});

/** A value that no longer holds: what it was, and who changed it, when and why. */
export interface Struck {
  readonly field: string;
  readonly was: Recorded<Json> | undefined;
  readonly by: Author;
  readonly at: Instant;
  readonly why: string;
}

/** An event as it reads today. */
export interface Happening {
  readonly event: StoredEvent;
  /** What it says with every correction in place. */
  readonly entry: Entry;
  readonly struck: readonly Struck[];
  readonly voided?: { readonly why: string; readonly by: Author; readonly at: Instant };
}

/**
 * A history as it reads today: corrections in place with the old values struck, voided events marked, in the order
 * things happened; two that happened at once keep the store's order. The store's order itself is never changed.
 */
export function readHistory(history: History): readonly Happening[] {
  const { events } = history;
  const about = events.some(({ type }) => isAboutAnEvent(type)) ? aboutEach(events) : undefined;
  const happenings: Happening[] = [];
  for (const event of events) {
    if (isAboutAnEvent(event.type)) continue;
    const said = about?.get(event.id);
    happenings.push(said === undefined ? plain(event) : corrected(event, said));
  }
  const ms = new Map(happenings.map((happening) => [happening, instantMs(happening.event.happenedAt)]));
  return happenings.sort(
    (a, b) => (ms.get(a) as number) - (ms.get(b) as number) || a.event.position - b.event.position,
  );
}

/** What happened and was not voided, in the order it happened. */
export const standing = (happenings: readonly Happening[]): readonly Happening[] =>
  happenings.filter(({ voided }) => voided === undefined);

const plain = (event: StoredEvent): Happening => ({ event, entry: event.data as unknown as Entry, struck: [] });

function aboutEach(events: readonly StoredEvent[]): ReadonlyMap<string, readonly StoredEvent[]> {
  const about = new Map<string, StoredEvent[]>();
  for (const event of events) {
    if (!isAboutAnEvent(event.type)) continue;
    const target = event.data["event"];
    if (typeof target !== "string") continue;
    about.set(target, [...(about.get(target) ?? []), event]);
  }
  return about;
}

function corrected(event: StoredEvent, said: readonly StoredEvent[]): Happening {
  const entry: Record<string, Recorded<Json>> = { ...(event.data as unknown as Record<string, Recorded<Json>>) };
  const struck: Struck[] = [];
  let voided: Happening["voided"];
  for (const { type, data, author, writtenAt } of said) {
    if (type === "EventVoided") {
      voided = { why: (data as unknown as Voiding).why, by: author, at: writtenAt };
      continue;
    }
    const { field, value, why } = data as unknown as Correction;
    struck.push({ field, was: entry[field], by: author, at: writtenAt, why });
    entry[field] = value;
  }
  return { event, entry: entry as unknown as Entry, struck, ...(voided ? { voided } : {}) };
}
