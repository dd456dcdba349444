import { FILE_LIMITS } from "./limits.ts";
import { Refused } from "./refusal.ts";

export interface ZipPart {
  readonly name: string;
  readonly packed: boolean;
  readonly packedBytes: number;
  readonly declaredBytes: number;
  /** Where its packed bytes begin in the file. */
  readonly from: number;
}

const END_SIGN = 0x06054b50;
const PART_SIGN = 0x02014b50;
const LOCAL_SIGN = 0x04034b50;
const WIDE = 0xffffffff;
const ARCHIVE_NAME = /\.(zip|xlsx|xlsm|xlsb|docx|pptx|jar|gz|7z|rar)$/i;

/**
 * Reads the list of parts at the end of a zip and refuses what no plain workbook holds, before anything is unpacked:
 * too many parts, a sum or a ratio that only a bomb has, parts that share bytes, archives within, a password.
 * Source: PKWARE, APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16 (from memory). Wide (zip64) records are refused as too large.
 */
export function zipDirectory(bytes: Uint8Array): readonly ZipPart[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const within = (at: number, length: number) => {
    if (at < 0 || at + length > bytes.length) throw new Refused("zip-damaged", `at byte ${at}`);
  };
  let end = bytes.length - 22;
  const earliest = Math.max(0, end - 65_535);
  while (end >= earliest && view.getUint32(end, true) !== END_SIGN) end -= 1;
  if (end < earliest) throw new Refused("zip-damaged", "no list of parts");
  const count = view.getUint16(end + 10, true);
  const directory = view.getUint32(end + 16, true);
  if (count > FILE_LIMITS.zipParts) throw new Refused("zip-too-many-parts", count);
  if (directory === WIDE) throw new Refused("workbook-too-large", "a wide zip");
  const parts: ZipPart[] = [];
  let at = directory;
  let unpacked = 0;
  for (let index = 0; index < count; index += 1) {
    within(at, 46);
    if (view.getUint32(at, true) !== PART_SIGN) throw new Refused("zip-damaged", `part ${index + 1}`);
    const flags = view.getUint16(at + 8, true);
    const method = view.getUint16(at + 10, true);
    const packedBytes = view.getUint32(at + 20, true);
    const declaredBytes = view.getUint32(at + 24, true);
    const nameLength = view.getUint16(at + 28, true);
    const local = view.getUint32(at + 42, true);
    within(at + 46, nameLength);
    const name = String.fromCharCode(...bytes.subarray(at + 46, at + 46 + nameLength)).replaceAll("\\", "/");
    if ((flags & 1) !== 0) throw new Refused("zip-encrypted", name);
    if (method !== 0 && method !== 8) throw new Refused("zip-damaged", `packing ${method}`);
    if ([packedBytes, declaredBytes, local].includes(WIDE)) throw new Refused("workbook-too-large", "a wide zip");
    if (ARCHIVE_NAME.test(name) || /(^|\/)embeddings\//i.test(name)) throw new Refused("zip-nested", name);
    unpacked += declaredBytes;
    if (declaredBytes > FILE_LIMITS.ratioFromBytes && declaredBytes > packedBytes * FILE_LIMITS.packingRatio)
      throw new Refused("zip-bomb", `${name}: ${Math.round(declaredBytes / Math.max(1, packedBytes))} times`);
    within(local, 30);
    if (view.getUint32(local, true) !== LOCAL_SIGN) throw new Refused("zip-damaged", name);
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    within(from, packedBytes);
    parts.push({ name, packed: method === 8, packedBytes, declaredBytes, from });
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  if (unpacked > FILE_LIMITS.unpackedBytes)
    throw new Refused("workbook-too-large", `${Math.round(unpacked / 1_000_000)} MB unpacked`);
  const inOrder = [...parts].sort((a, b) => a.from - b.from);
  for (const [index, part] of inOrder.entries()) {
    const next = inOrder[index + 1];
    if (next && part.from + part.packedBytes > next.from)
      throw new Refused("zip-bomb", `${part.name} shares its bytes`);
  }
  return parts;
}
