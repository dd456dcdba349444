import type { SealedEvent, StoredEvent, Subject } from "../../src/register/index.ts";
import { inventedEntry } from "../invented-entry.ts";

/** An invented event: what it says does not matter to a store. */
export const inventedEvent = (subject: Subject, id: string, says: number | string = 1): SealedEvent =>
  inventedEntry({
    id,
    subject,
    type: "LineCared",
    at: "2031-03-05T10:30+01:00",
    writtenAt: "2031-03-05T10:31+01:00",
    data: { says, text: 'é "quoted" 😀 ?' },
  });

export const places = (events: readonly StoredEvent[]) =>
  events.map(({ id, position, version }) => [id, position, version]);
