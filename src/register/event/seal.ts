import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, hexToBytes, utf8ToBytes } from "@noble/hashes/utils.js";
import { canonicalJson } from "./canonical-json.ts";
import type { RegisterEvent, SealedEvent } from "./event.ts";

/** The hash before the first: 32 zero bytes. */
export const CHAIN_START = "00".repeat(32);

/** The canonical JSON of everything an event says, without the seal itself: what is hashed, and what a store keeps. */
export function sealedText(event: RegisterEvent): string {
  const { id, subject, type, shape, happenedAt, writtenAt, author, device, policyVersion, seen, data } = event;
  return canonicalJson({ id, subject, type, shape, happenedAt, writtenAt, author, device, policyVersion, seen, data });
}

/** SHA-256 of a text's UTF-8 bytes, in hexadecimal. */
export const textHash = (text: string): string => bytesToHex(sha256(utf8ToBytes(text)));

/** SHA-256 of an event's canonical JSON without the seal itself, in hexadecimal. */
export const contentHashOf = (event: RegisterEvent): string => textHash(sealedText(event));

/** Seals an event: the writer's own hash over everything it says. */
export const seal = <Event extends RegisterEvent>(event: Event): Event & SealedEvent => ({
  ...event,
  contentHash: contentHashOf(event),
});

/**
 * The next link: h(n) = SHA-256( h(n-1) as 32 bytes || canonical JSON of the entry ), in hexadecimal.
 * What a link proves: nothing before it was changed, taken out, put in or swapped. It does not prove that nothing was
 * cut off after it; only a head kept elsewhere does.
 */
export function chainHash(before: string, entry: unknown): string {
  const text = utf8ToBytes(canonicalJson(entry));
  const bytes = new Uint8Array(32 + text.length);
  bytes.set(hexToBytes(before));
  bytes.set(text, 32);
  return bytesToHex(sha256(bytes));
}

/** The entry a store links for an accepted event: its place and its seal. The seal covers all the rest it says. */
export const chainEntry = (event: Pick<SealedEvent, "id" | "subject" | "contentHash">, at: ChainPlace) => ({
  position: at.position,
  subject: event.subject,
  version: at.version,
  id: event.id,
  contentHash: event.contentHash,
});
interface ChainPlace {
  readonly position: number;
  readonly version: number;
}
