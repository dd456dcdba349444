import type { StoredEvent, Subject } from "../event/index.ts";
import type { Answer, Offer } from "../store/index.ts";
import type { DeviceChange, DeviceRecord } from "./device-record.ts";

/**
 * What waits, as offers: one for each subject, subjects in the order of their first waiting event. The version expected
 * is the last one known of the subject; each event keeps what its writer had seen when it was written, so that what
 * came between still shows as a difference.
 */
export function offersOf(device: DeviceRecord): readonly Offer[] {
  const versions = new Map<Subject, number>();
  for (const { subject, version } of device.known) versions.set(subject, version);
  const bySubject = new Map<Subject, Offer>();
  for (const event of device.queue) {
    const offer = bySubject.get(event.subject);
    bySubject.set(event.subject, {
      subject: event.subject,
      expectedVersion: versions.get(event.subject) ?? 0,
      events: [...(offer?.events ?? []), event],
    });
  }
  return [...bySubject.values()];
}

/** What an answer of the store changes on the device; an offer that moved on is offered again after it. */
export function takeAnswer(answer: Answer): DeviceChange {
  switch (answer.kind) {
    case "accepted":
      return { kind: "placed", events: answer.events };
    case "moved on":
      return { kind: "placed", events: answer.since };
    case "refused":
      return { kind: "set aside", id: answer.id, code: answer.code };
    default:
      return answer satisfies never;
  }
}

/** What the next page of a server's events shows about the server. */
export type PageReading =
  | { readonly kind: "goes on"; readonly change: DeviceChange }
  /** It holds less than this device has seen of it, or something else at the same place. */
  | { readonly kind: "server is older" }
  /** An event is not what its writer sealed, or its link does not follow from the one before it. */
  | { readonly kind: "does not hold together"; readonly position: number };

/**
 * Reads a page that was asked for from the last position the device holds whole, that event included: it must come back
 * as it was. `links` says whether an event follows from the one before it and is what its writer sealed.
 */
export function readPage(
  device: Pick<DeviceRecord, "known" | "upTo">,
  page: readonly StoredEvent[],
  links: (before: StoredEvent | undefined, event: StoredEvent) => boolean,
): PageReading {
  const { known, upTo } = device;
  const held = new Map<number, StoredEvent>();
  for (let at = known.length - 1; at >= 0 && (known[at] as StoredEvent).position >= upTo; at -= 1) {
    held.set((known[at] as StoredEvent).position, known[at] as StoredEvent);
  }
  const anchor = held.get(upTo);
  if (anchor !== undefined && page[0]?.chainHash !== anchor.chainHash) return { kind: "server is older" };
  let before = anchor;
  for (const event of page) {
    const here = held.get(event.position);
    if (here !== undefined && (here.id !== event.id || here.chainHash !== event.chainHash)) {
      return { kind: "server is older" };
    }
    if (here === undefined && !links(before, event))
      return { kind: "does not hold together", position: event.position };
    before = event;
  }
  const next = page.filter(({ position }) => position > upTo);
  return { kind: "goes on", change: { kind: "pulled", events: next, upTo: page.at(-1)?.position ?? upTo } };
}

/** Whether a server's head lies before something it once told this device: it came back with an older backup. */
export const headIsOlder = (device: DeviceRecord, head: { readonly position: number }): boolean =>
  device.doubted || head.position < (device.known.at(-1)?.position ?? 0);
