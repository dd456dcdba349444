import {
  contentHashOf,
  follows,
  headIsOlder,
  readPage,
  takeAnswer,
  type DeviceChange,
  type DeviceRecord,
  type Offer,
  type StoredEvent,
} from "../../register/index.ts";
import type { RefusalCode } from "../../language/index.ts";
import type { Reply, ServerPort } from "./server-port.ts";

export type RoundEnd =
  | { readonly kind: "in touch" }
  | { readonly kind: "no server" }
  | { readonly kind: "sign in" }
  | { readonly kind: "unreachable" }
  /** Signed in, but this account gets no copy of the record. */
  | { readonly kind: "no copy"; readonly code: RefusalCode }
  /** A shared record is not copied to a device that would keep it in the clear. */
  | { readonly kind: "secret first" }
  /** What the server sent is not what was once written: nothing of it was taken. */
  | { readonly kind: "does not hold together"; readonly position: number };

/** The device's side of a round. */
export interface RoundSide {
  readonly record: () => DeviceRecord;
  readonly offers: () => readonly Offer[];
  readonly take: (changes: readonly DeviceChange[]) => Promise<void>;
}

const PAGE = 200; // events of one answer: checked and folded in a few milliseconds
const OFFERS_AT_ONCE = 20;
const TRIES = 8; // a subject on which others write all the time is left for the next round

/** One round with the server: read what came, offer what waits, read where it now stands. */
export async function syncRound(server: ServerPort, device: RoundSide): Promise<RoundEnd> {
  const read = await pull(server, device);
  if (read.kind !== "in touch") return read;
  for (let tried = 0; tried < TRIES; tried += 1) {
    const offers = device.offers();
    if (offers.length === 0) return tried === 0 ? read : await pull(server, device);
    for (let at = 0; at < offers.length; at += OFFERS_AT_ONCE) {
      const end = await offer(server, device, offers.slice(at, at + OFFERS_AT_ONCE));
      if (end.kind !== "in touch") return end;
    }
    // an answer may show that the server went back while it was asked
    if (device.record().doubted) return readAgain(server, device);
  }
  return pull(server, device);
}

async function pull(server: ServerPort, device: RoundSide): Promise<RoundEnd> {
  const head = await server.head();
  if (head.kind !== "answer") return ended(head);
  if (headIsOlder(device.record(), head.value)) return readAgain(server, device);
  for (;;) {
    const { upTo } = device.record();
    if (upTo === head.value.position && device.record().known.at(-1)?.chainHash === head.value.chainHash) break;
    const page = await server.eventsAfter(Math.max(0, upTo - 1), PAGE);
    if (page.kind !== "answer") return ended(page);
    const reading = readPage(device.record(), page.value, follows);
    if (reading.kind === "server is older") return readAgain(server, device);
    if (reading.kind === "does not hold together") return reading;
    await device.take([reading.change]);
    if (page.value.length < PAGE || device.record().upTo === upTo) break;
  }
  return device.record().doubted ? readAgain(server, device) : { kind: "in touch" };
}

/** Reads everything a server holds that is not the one this device knew. */
async function readAgain(server: ServerPort, device: RoundSide): Promise<RoundEnd> {
  const events: StoredEvent[] = [];
  for (;;) {
    const page = await server.eventsAfter(events.at(-1)?.position ?? 0, PAGE);
    if (page.kind !== "answer") return ended(page);
    for (const event of page.value) {
      if (!follows(events.at(-1), event)) return { kind: "does not hold together", position: event.position };
      events.push(event);
    }
    if (page.value.length < PAGE) break;
  }
  await device.take([{ kind: "read again", events, upTo: events.at(-1)?.position ?? 0 }]);
  return { kind: "in touch" };
}

async function offer(server: ServerPort, device: RoundSide, offers: readonly Offer[]): Promise<RoundEnd> {
  const reply = await server.offer(offers);
  if (reply.kind === "refused") return offerSingly(server, device, offers, reply.status);
  if (reply.kind !== "answer") return ended(reply);
  for (const answer of reply.value) {
    const events = answer.kind === "accepted" ? answer.events : answer.kind === "moved on" ? answer.since : [];
    const changed = events.find((event) => contentHashOf(event) !== event.contentHash);
    if (changed) return { kind: "does not hold together", position: changed.position };
  }
  await device.take(reply.value.map(takeAnswer));
  return { kind: "in touch" };
}

/** A whole letter was turned back: each event is offered alone, so that one that is not taken holds up no other. */
async function offerSingly(
  server: ServerPort,
  device: RoundSide,
  offers: readonly Offer[],
  status: number,
): Promise<RoundEnd> {
  const [only, ...others] = offers.flatMap(({ events }) => events);
  if (only && others.length === 0) {
    await device.take([{ kind: "set aside", id: only.id, code: status === 403 ? "not-allowed" : "not-understood" }]);
    return { kind: "in touch" };
  }
  for (const { id, subject } of offers.flatMap(({ events }) => events)) {
    // the version moves with every event taken, so it is asked of the record each time
    const now = device.offers().find((one) => one.subject === subject);
    const event = now?.events.find((one) => one.id === id);
    if (!now || !event) continue;
    const end = await offer(server, device, [{ ...now, events: [event] }]);
    if (end.kind !== "in touch") return end;
  }
  return { kind: "in touch" };
}

/** How a round ends that was not answered. */
export function ended(reply: Exclude<Reply<unknown>, { readonly kind: "answer" }>): RoundEnd {
  if (reply.kind === "wait") return { kind: "unreachable" };
  if (reply.kind === "sign in") return { kind: "sign in" };
  if (reply.kind !== "refused") return reply;
  // a one-time password opens nothing but the choosing of another
  return reply.code === "password-change-wanted" ? { kind: "sign in" } : { kind: "no copy", code: reply.code };
}
