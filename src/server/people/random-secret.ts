import { createHash, randomBytes } from "node:crypto";
import { base32 } from "./time-code.ts";

/** What is kept of a token, a recovery code or a typed name: SHA-256, in hexadecimal. */
export const sha256Hex = (text: string): string => createHash("sha256").update(text).digest("hex");

/** A session's token: 256 random bits. */
export const sessionToken = (): string => randomBytes(32).toString("base64url");

/** A password to be typed once from paper or by telephone: 100 random bits in groups of four, no sign twice alike. */
export const oneTimePassword = (): string =>
  (base32(randomBytes(13)).slice(0, 20).toLowerCase().match(/.{4}/g) ?? []).join("-");

/** A recovery code: 80 random bits, written like a one-time password. */
export const recoveryCode = (): string => (base32(randomBytes(10)).toLowerCase().match(/.{4}/g) ?? []).join("-");

/** A recovery code as it was made, however it was typed. */
export const recoveryHash = (typed: string): string => sha256Hex(typed.toLowerCase().replaceAll(/[^a-z2-7]/g, ""));
