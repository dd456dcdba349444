/** Crockford's 32 signs: no I, L, O or U, so that a printed key is typed back as it was read. */
const SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const KEY_BYTES = 16;
const SIGN_COUNT = 28; // 128 bits of the key and 12 of its checksum, five bits a sign
const GROUP = 4;

/** A new recovery key: 128 random bits with a checksum, in seven groups of four signs. */
export const makeRecoveryKey = (): Promise<string> => recoveryText(crypto.getRandomValues(new Uint8Array(KEY_BYTES)));

/**
 * The text of a key: its bits and the first 12 bits of its SHA-256, five bits a sign.
 * Example: the bits of 16 zero bytes begin "0000-0000-...".
 */
export async function recoveryText(key: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", key));
  const bits = [...key, hash[0] as number, hash[1] as number].map((byte) => byte.toString(2).padStart(8, "0")).join("");
  let signs = "";
  for (let at = 0; at < SIGN_COUNT; at += 1) signs += SIGNS[Number.parseInt(bits.slice(at * 5, at * 5 + 5), 2)];
  return (signs.match(new RegExp(`.{${GROUP}}`, "g")) as string[]).join("-");
}

/**
 * A typed recovery key in its one form; undefined when a sign was read wrong or left out: the checksum does not agree.
 * Small letters, spaces, O for 0 and I or L for 1 are read as they were meant.
 */
export async function readRecoveryKey(typed: string): Promise<string | undefined> {
  const signs = typed
    .toUpperCase()
    .replaceAll(/[^0-9A-Z]/g, "")
    .replaceAll("O", "0")
    .replaceAll(/[IL]/g, "1");
  if (signs.length !== SIGN_COUNT || !/^[0-9A-HJKMNP-TV-Z]+$/.test(signs)) return undefined;
  const bits = Array.from(signs, (sign) => SIGNS.indexOf(sign).toString(2).padStart(5, "0")).join("");
  const key = Uint8Array.from({ length: KEY_BYTES }, (_, at) => Number.parseInt(bits.slice(at * 8, at * 8 + 8), 2));
  const text = await recoveryText(key);
  return text.replaceAll("-", "") === signs ? text : undefined;
}
