import type { DwellPiece } from "../../register/index.ts";

/** A piece of the dwell table that is not as it was written; the table is then dropped and folded again. */
export class SpoiltPiece extends Error {
  override readonly name = "SpoiltPiece";
}

const SEAL_BYTES = 4;
const SEED: Readonly<Record<DwellPiece["kind"], number>> = { line: 0x811c9dc5, referral: 0x01000193 };

/** The bytes of a piece with their check sum after them. */
export function sealedBytes(kind: DwellPiece["kind"], bytes: Uint8Array): Uint8Array {
  const sealed = new Uint8Array(bytes.length + SEAL_BYTES);
  sealed.set(bytes);
  new DataView(sealed.buffer).setUint32(bytes.length, sumOf(kind, sealed, bytes.length), true);
  return sealed;
}

/**
 * The bytes of a piece, in a copy that starts on a width of eight: drivers hand out bytes that start anywhere.
 * Errors: SpoiltPiece where the sum does not agree; a number read off such bytes would be counted without a word.
 */
export function unsealedBytes(kind: DwellPiece["kind"], data: Uint8Array): Uint8Array<ArrayBuffer> {
  const sealed = new Uint8Array(data);
  const length = sealed.length - SEAL_BYTES;
  if (length < 0 || new DataView(sealed.buffer).getUint32(length, true) !== sumOf(kind, sealed, length)) {
    throw new SpoiltPiece(`a ${kind} piece of ${sealed.length} bytes is not as it was written`);
  }
  return sealed.subarray(0, length);
}

/** FNV-1a by words of four bytes, with a shift: every step is one to one, so that one word changed is always seen. */
function sumOf(kind: DwellPiece["kind"], bytes: Uint8Array<ArrayBuffer>, length: number): number {
  const whole = length >>> 2;
  const words = new Int32Array(bytes.buffer, 0, whole);
  // whole numbers of 32 bits throughout: a million lines are some 30 million words
  let sum = SEED[kind] ^ length;
  for (let at = 0; at < whole; at += 1) {
    sum = Math.imul(sum ^ (words[at] as number), 0x01000193);
    sum ^= sum >>> 15;
  }
  for (let at = whole * 4; at < length; at += 1) sum = Math.imul(sum ^ (bytes[at] as number), 0x01000193);
  return sum >>> 0;
}
