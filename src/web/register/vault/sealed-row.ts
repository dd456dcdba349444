import type { DeviceChange } from "../../../register/index.ts";

/** What one entry of the device's log looks like in the browser's store: sealed, or in the clear while only practising. */
export type LogRow =
  | { readonly iv: Uint8Array<ArrayBuffer>; readonly sealed: ArrayBuffer }
  | { readonly clear: readonly DeviceChange[] };

/** Seals changes with the data key by AES-256-GCM under a fresh 96-bit nonce (NIST SP 800-38D 8.2.2). */
export async function sealRow(key: CryptoKey | undefined, changes: readonly DeviceChange[]): Promise<LogRow> {
  if (key === undefined) return { clear: changes };
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const text = new TextEncoder().encode(JSON.stringify(changes));
  return { iv, sealed: await crypto.subtle.encrypt({ name: "AES-GCM", iv, additionalData: PURPOSE }, key, text) };
}

/** The changes of a row. Throws where a sealed row was altered or belongs to another key. */
export async function openRow(key: CryptoKey | undefined, row: LogRow): Promise<readonly DeviceChange[]> {
  if ("clear" in row) return row.clear;
  if (key === undefined) throw new Error("locked");
  const text = await crypto.subtle.decrypt({ name: "AES-GCM", iv: row.iv, additionalData: PURPOSE }, key, row.sealed);
  return JSON.parse(new TextDecoder().decode(text)) as readonly DeviceChange[];
}

const PURPOSE = new TextEncoder().encode("veinwright device log");
