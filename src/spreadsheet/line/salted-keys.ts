import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

export type KeyKind = "line" | "patient" | "inserter" | "lot" | "catheter";
/** The same name gives the same key within one export, and another in the next. */
export type KeyOf = (kind: KeyKind, name: string) => string;

const SALT_BYTES = 16;
const KEY_DIGITS = 16;

/**
 * Keys of one export: HMAC-SHA-256 under a random salt that is thrown away with the export. Whoever has the file and
 * can try every patient number still lacks the salt.
 * Holds: a salt of 16 bytes or more from a source of chance, else RangeError. Two of a million of the 64-bit keys fall
 * together about once in 37 million files. Source: RFC 2104; NIST FIPS 180-4.
 */
export function saltedKeys(salt: Uint8Array): KeyOf {
  if (salt.length < SALT_BYTES) throw new RangeError(`A salt of ${salt.length} bytes; at least ${SALT_BYTES}.`);
  const made = new Map<string, string>();
  return (kind, name) => {
    const text = `${kind}|${name}`;
    const before = made.get(text);
    if (before !== undefined) return before;
    const key = `${kind.slice(0, 1).toUpperCase()}${bytesToHex(hmac(sha256, salt, utf8ToBytes(text))).slice(0, KEY_DIGITS)}`;
    // a line's own key is asked for once
    if (kind !== "line") made.set(text, key);
    return key;
  };
}
