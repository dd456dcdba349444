import { seal, type SealedEvent, type StoredEvent, type Subject } from "../../src/register/index.ts";
import type { Instant } from "../../src/core/calendar/index.ts";

/** An invented event: what it says does not matter to a store. */
export const inventedEvent = (subject: Subject, id: string, says: number | string = 1): SealedEvent =>
  seal({
    id,
    subject,
    type: "LineCared",
    shape: 1,
    happenedAt: "2031-03-05T10:30+01:00" as Instant,
    writtenAt: "2031-03-05T10:31+01:00" as Instant,
    author: { initials: "AB", role: "ward nurse", account: "" },
    device: "tablet 2",
    policyVersion: "default 1",
    seen: 0,
    data: { says, text: 'é "quoted" 😀 ?' },
  });

export const places = (events: readonly StoredEvent[]) =>
  events.map(({ id, position, version }) => [id, position, version]);
