/**
 * A data key wrapped by a person's secret: nobody can read what is kept on the device from this alone.
 * The secret and what is derived from it are never kept; the iteration count is, so that it can be raised later.
 */
export interface WrappedKey {
  /** The name a person chose on this device; "" is the recovery key. */
  readonly person: string;
  readonly iterations: number;
  readonly salt: Uint8Array<ArrayBuffer>;
  readonly iv: Uint8Array<ArrayBuffer>;
  readonly wrapped: Uint8Array<ArrayBuffer>;
}

/** OWASP Password Storage Cheat Sheet, PBKDF2-HMAC-SHA256; why not Argon2id: docs/decision/0010-device.md. */
const ITERATIONS = 600_000;
/** NIST SP 800-63B-4: 15 signs where a secret stands alone; whoever holds a stolen tablet may try without end. */
export const LEAST_SECRET_SIGNS = 15;
const LEAST_DIFFERENT_SIGNS = 5;

export type SecretFault = "too short" | "too few different signs";

/** What keeps a secret from being used; every sign and every script counts, as NIST SP 800-63B-4 asks. */
export function secretFault(secret: string): SecretFault | undefined {
  const signs = Array.from(secret.normalize("NFKC"));
  if (signs.length < LEAST_SECRET_SIGNS) return "too short";
  return new Set(signs).size < LEAST_DIFFERENT_SIGNS ? "too few different signs" : undefined;
}

export const newDataKey = (): Uint8Array<ArrayBuffer> => crypto.getRandomValues(new Uint8Array(32));

/** The data key for use: it cannot be read out of the browser again. */
export const importDataKey = (raw: Uint8Array<ArrayBuffer>): Promise<CryptoKey> =>
  crypto.subtle.importKey("raw", raw, "AES-GCM", false, ["encrypt", "decrypt"]);

/** Wraps the data key with a key derived from the secret by PBKDF2-HMAC-SHA-256 (RFC 8018 5.2), by AES-256-GCM. */
export async function wrapDataKey(raw: Uint8Array<ArrayBuffer>, person: string, secret: string): Promise<WrappedKey> {
  const salt = crypto.getRandomValues(new Uint8Array(16));
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const key = await derivedKey(secret, salt, ITERATIONS);
  const wrapped = await crypto.subtle.encrypt(sealing(iv, person, ITERATIONS), key, raw);
  return { person, iterations: ITERATIONS, salt, iv, wrapped: new Uint8Array(wrapped) };
}

/** The data key, or undefined for a wrong secret: AES-GCM tells the two apart. */
export async function unwrapDataKey(
  { person, iterations, salt, iv, wrapped }: WrappedKey,
  secret: string,
): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const key = await derivedKey(secret, salt, iterations);
  try {
    return new Uint8Array(await crypto.subtle.decrypt(sealing(iv, person, iterations), key, wrapped));
  } catch {
    return undefined;
  }
}

/** The name and the count are bound in: a row copied to another name does not open. */
const sealing = (iv: Uint8Array<ArrayBuffer>, person: string, iterations: number): AesGcmParams => ({
  name: "AES-GCM",
  iv,
  additionalData: new TextEncoder().encode(`veinwright data key ${iterations} ${person}`),
});

async function derivedKey(secret: string, salt: Uint8Array<ArrayBuffer>, iterations: number): Promise<CryptoKey> {
  const typed = new TextEncoder().encode(secret.normalize("NFKC"));
  const material = await crypto.subtle.importKey("raw", typed, "PBKDF2", false, ["deriveKey"]);
  return crypto.subtle.deriveKey(
    { name: "PBKDF2", hash: "SHA-256", salt, iterations },
    material,
    { name: "AES-GCM", length: 256 },
    false,
    ["encrypt", "decrypt"],
  );
}
