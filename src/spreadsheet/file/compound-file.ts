import type { RefusalCode } from "./refusal.ts";
import type { SheetFile } from "./sheet-file.ts";

const SIGN = [0xd0, 0xcf, 0x11, 0xe0] as const;
const SHIFT_AT = 30;
const DIRECTORY_AT = 48;
const ENTRY_BYTES = 128;
const NAME_BYTES = 64;
const LARGEST_SHIFT = 12;

/** Whether the first bytes are those of a compound file: an old workbook, or a new one behind a password. */
export const isCompoundFile = (head: Uint8Array): boolean => SIGN.every((byte, at) => head[at] === byte);

/**
 * What a compound file holds, by the names in the first sector of its directory: a workbook sealed by a password, or else
 * one of the old kind.
 * Source: Microsoft, [MS-CFB] 2.2 and 2.6.1; [MS-OFFCRYPTO] 2.3.4.4 for the name EncryptedPackage (from memory).
 */
export async function kindOfCompoundFile(file: SheetFile): Promise<RefusalCode> {
  const head = await file.range(0, DIRECTORY_AT + 4);
  if (head.length < DIRECTORY_AT + 4) return "old-workbook";
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  const sector = 2 ** Math.min(LARGEST_SHIFT, view.getUint16(SHIFT_AT, true));
  const from = (view.getUint32(DIRECTORY_AT, true) + 1) * sector;
  const directory = await file.range(from, from + sector);
  for (let at = 0; at + ENTRY_BYTES <= directory.length; at += ENTRY_BYTES) {
    // names are letters of two bytes; the second is nought in the name that is looked for
    const name = Array.from({ length: NAME_BYTES / 2 }, (_, letter) => directory[at + letter * 2] ?? 0);
    if (String.fromCharCode(...name.filter((byte) => byte !== 0)) === "EncryptedPackage") return "zip-encrypted";
  }
  return "old-workbook";
}
