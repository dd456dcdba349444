import type { SealedEvent, StoredEvent, Subject } from "../event/index.ts";
import type { History } from "../fold/index.ts";
import type { DeviceRecord } from "./device-record.ts";

/**
 * Every history as the device knows it: what the server placed, in its order, and after it what waits here, at the place
 * it will have if nothing else comes. An event that waits has no chain hash yet.
 * A history that did not change is the same object as before.
 */
export function deviceHistories(
  device: Pick<DeviceRecord, "known" | "queue" | "aside">,
  before: ReadonlyMap<Subject, History> = new Map(),
): ReadonlyMap<Subject, History> {
  const events = new Map<Subject, StoredEvent[]>();
  const add = (event: StoredEvent): void => {
    const own = events.get(event.subject);
    if (own) own.push(event);
    else events.set(event.subject, [event]);
  };
  for (const event of device.known) add(event);
  let position = device.known.at(-1)?.position ?? 0;
  const wait = (event: SealedEvent): void => {
    position += 1;
    const version = (events.get(event.subject)?.at(-1)?.version ?? 0) + 1;
    const was = before.get(event.subject)?.events[events.get(event.subject)?.length ?? 0];
    const kept = was?.id === event.id && was.position === position && was.version === version && was.chainHash === "";
    add(kept ? was : { ...event, position, version, chainHash: "" });
  };
  device.queue.forEach(wait);
  // what the server would not take was still seen by a person: it stays on this screen
  device.aside.forEach(({ event }) => wait(event));
  const histories = new Map<Subject, History>();
  for (const [subject, own] of events) {
    const was = before.get(subject);
    const same = was?.events.length === own.length && was.events.every((event, at) => event === own[at]);
    histories.set(subject, same ? was : { subject, version: (own.at(-1) as StoredEvent).version, events: own });
  }
  return histories;
}

/**
 * How many events of a subject the server has placed and this device knows without a gap: what a writer here has seen of
 * others. The device's own waiting events are not counted, because others may come to stand before them.
 */
export function seenOf(history: History | undefined): number {
  let seen = 0;
  for (const { version, chainHash } of history?.events ?? []) {
    if (chainHash === "" || version !== seen + 1) break;
    seen = version;
  }
  return seen;
}
