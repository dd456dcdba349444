import { createHmac, timingSafeEqual } from "node:crypto";

const STEP_SECONDS = 30;
const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

/**
 * The code of a step: T = floor(seconds / 30), code = truncate(HMAC-SHA-1(secret, T)) mod 10^digits.
 * Source: RFC 6238 section 4.2, RFC 4226 section 5.3. Example: RFC 6238 appendix B, at 59 s "94287082".
 */
export function timeCode(secret: Uint8Array, step: number, digits = 6): string {
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(step));
  const mac = createHmac("sha1", secret).update(counter).digest();
  const offset = (mac.at(-1) ?? 0) & 15;
  return String((mac.readUInt32BE(offset) & 0x7f_ff_ff_ff) % 10 ** digits).padStart(digits, "0");
}

export const stepAt = (seconds: number): number => Math.floor(seconds / STEP_SECONDS);

/** The step whose code this is, the present one or the one either side; undefined when it is none of them. */
export function stepOfCode(secret: Uint8Array, code: string, seconds: number): number | undefined {
  const now = stepAt(seconds);
  const typed = Buffer.from(code);
  return [now, now - 1, now + 1].find((step) => {
    if (step < 0) return false;
    const expected = Buffer.from(timeCode(secret, step));
    return typed.length === expected.length && timingSafeEqual(typed, expected);
  });
}

/** Base 32 without padding, as an authenticator reads a secret. Source: RFC 4648 section 6. */
export function base32(bytes: Uint8Array): string {
  let bits = "";
  for (const byte of bytes) bits += byte.toString(2).padStart(8, "0");
  return (bits.match(/.{1,5}/g) ?? []).map((five) => ALPHABET[Number.parseInt(five.padEnd(5, "0"), 2)]).join("");
}

export function fromBase32(text: string): Uint8Array {
  const bits = Array.from(text)
    .map((sign) => ALPHABET.indexOf(sign).toString(2).padStart(5, "0"))
    .join("");
  return Uint8Array.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
}
