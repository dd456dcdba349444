import { FILE_LIMITS } from "../file/limits.ts";
import { Refused } from "../file/refusal.ts";
import type { SheetFile } from "../file/sheet-file.ts";

/** One part of a zip, as the directory at its end tells of it. */
export interface ZipPart {
  readonly name: string;
  readonly packed: boolean;
  readonly packedBytes: number;
  readonly declaredBytes: number;
  readonly crc: number;
  /** Where its own record begins in the file, and where the next thing begins. */
  readonly from: number;
  readonly until: number;
}

const END_SIGN = 0x06054b50;
const WIDE_END_SIGN = 0x06064b50;
const WIDE_PLACE_SIGN = 0x07064b50;
const PART_SIGN = 0x02014b50;
const END_BYTES = 22;
const WIDE_PLACE_BYTES = 20;
const WIDE_END_BYTES = 56;
const PART_BYTES = 46;
export const LOCAL_BYTES = 30;
const LONGEST_COMMENT = 65_535;
const WIDE = 0xffffffff;
const WIDE_COUNT = 0xffff;
const WIDE_FIELD = 1;
const ENCRYPTED = 1;
const STORED = 0;
const DEFLATED = 8;
const ARCHIVE_NAME = /\.(zip|xlsx|xlsm|xlsb|docx|pptx|jar|gz|7z|rar)$/i;

/**
 * Reads the list of parts at the end of a zip by random access and refuses what no plain workbook holds, before anything
 * is unpacked: too many parts, a ratio that only a bomb has, parts that share bytes or stand twice, archives within, a
 * password. Wide (zip64) records are read.
 * Source: PKWARE, APPNOTE.TXT 6.3.3, sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16 and 4.5.3 (from memory).
 */
export async function zipDirectory(file: SheetFile): Promise<readonly ZipPart[]> {
  const end = await directoryEnd(file);
  if (end.count > FILE_LIMITS.zipParts) throw new Refused("zip-too-many-parts", end.count);
  if (end.bytes > FILE_LIMITS.directoryBytes || end.from + end.bytes > end.until)
    throw new Refused("zip-damaged", "the list of parts does not fit");
  const bytes = await file.range(end.from, end.from + end.bytes);
  if (bytes.length !== end.bytes) throw new Refused("zip-damaged", "the list of parts is cut off");
  const view = viewOf(bytes);
  const found: Omit<ZipPart, "until">[] = [];
  const seen = new Set<string>();
  let at = 0;
  for (let index = 0; index < end.count; index += 1) {
    if (at + PART_BYTES > bytes.length || view.getUint32(at, true) !== PART_SIGN)
      throw new Refused("zip-damaged", `part ${index + 1}`);
    const names = view.getUint16(at + 28, true);
    const extras = view.getUint16(at + 30, true);
    const next = at + PART_BYTES + names + extras + view.getUint16(at + 32, true);
    if (next > bytes.length) throw new Refused("zip-damaged", `part ${index + 1}`);
    const part = partAt(bytes, at, names, extras);
    // names are alike whatever the form of their letters: ECMA-376 part 2, 9.1.1.1.1 (from memory)
    const key = part.name.toLowerCase();
    if (seen.has(key)) throw new Refused("zip-damaged", `${part.name} stands twice`);
    seen.add(key);
    if (part.from + LOCAL_BYTES > end.from) throw new Refused("zip-damaged", part.name);
    found.push(part);
    at = next;
  }
  return inOrder(found, end.from);
}

/** Each part with the place where the next thing begins; parts that share bytes are a bomb. */
function inOrder(found: readonly Omit<ZipPart, "until">[], directory: number): readonly ZipPart[] {
  const parts = [...found].sort((a, b) => a.from - b.from);
  return parts.map((part, index) => {
    const until = parts[index + 1]?.from ?? directory;
    if (part.from + LOCAL_BYTES + part.packedBytes > until)
      throw new Refused("zip-bomb", `${part.name} shares its bytes`);
    return { ...part, until };
  });
}

function partAt(bytes: Uint8Array, at: number, names: number, extras: number): Omit<ZipPart, "until"> {
  const view = viewOf(bytes);
  const name = nameOf(bytes.subarray(at + PART_BYTES, at + PART_BYTES + names));
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  if ((flags & ENCRYPTED) !== 0) throw new Refused("zip-encrypted", name);
  if (method !== STORED && method !== DEFLATED) throw new Refused("zip-damaged", `packing ${method}`);
  const wide = wideField(view, at + PART_BYTES + names, extras);
  // the wide field holds only what the plain field has no room for, in this order
  const own = (place: number): number => {
    const plain = view.getUint32(place, true);
    return plain === WIDE ? wide(name) : plain;
  };
  const declaredBytes = own(at + 24);
  const packedBytes = own(at + 20);
  const from = own(at + 42);
  if (ARCHIVE_NAME.test(name) || /(^|\/)embeddings\//i.test(name)) throw new Refused("zip-nested", name);
  if (declaredBytes > FILE_LIMITS.ratioFromBytes && declaredBytes > packedBytes * FILE_LIMITS.packingRatio)
    throw new Refused("zip-bomb", `${name}: ${Math.round(declaredBytes / Math.max(1, packedBytes))} times`);
  if (method === STORED && packedBytes !== declaredBytes) throw new Refused("zip-damaged", name);
  return { name, packed: method === DEFLATED, packedBytes, declaredBytes, crc: view.getUint32(at + 16, true), from };
}

/** Gives the numbers of the wide field one after the other; a number that is promised and not there is damage. */
function wideField(view: DataView, from: number, length: number): (name: string) => number {
  let at = 0;
  let end = 0;
  for (let field = from; field + 4 <= from + length;) {
    const size = view.getUint16(field + 2, true);
    if (view.getUint16(field, true) === WIDE_FIELD) {
      at = field + 4;
      end = Math.min(at + size, from + length);
      break;
    }
    field += 4 + size;
  }
  return (name) => {
    if (at + 8 > end) throw new Refused("zip-damaged", name);
    at += 8;
    return wideNumber(view, at - 8);
  };
}

/** Where the directory is, from the record at the end or the wide one before it. */
async function directoryEnd(
  file: SheetFile,
): Promise<{ readonly count: number; readonly from: number; readonly bytes: number; readonly until: number }> {
  const from = Math.max(0, file.sizeBytes - END_BYTES - LONGEST_COMMENT - WIDE_PLACE_BYTES);
  const bytes = await file.range(from, file.sizeBytes);
  const view = viewOf(bytes);
  let at = bytes.length - END_BYTES;
  // a comment must end where the file ends, or a sign inside a comment would be taken for the record
  while (
    at >= 0 &&
    !(view.getUint32(at, true) === END_SIGN && at + END_BYTES + view.getUint16(at + 20, true) === bytes.length)
  )
    at -= 1;
  if (at < 0) throw new Refused("zip-damaged", "no list of parts");
  const disk = view.getUint16(at + 4, true);
  const count = view.getUint16(at + 10, true);
  const size = view.getUint32(at + 12, true);
  const place = view.getUint32(at + 16, true);
  const isWide = count === WIDE_COUNT || size === WIDE || place === WIDE;
  if (!isWide) {
    if (disk !== 0 || view.getUint16(at + 8, true) !== count) throw new Refused("zip-damaged", "several pieces");
    return { count, bytes: size, from: place, until: from + at };
  }
  const locator = at - WIDE_PLACE_BYTES;
  if (locator < 0 || view.getUint32(locator, true) !== WIDE_PLACE_SIGN)
    throw new Refused("zip-damaged", "no wide list of parts");
  const record = wideNumber(view, locator + 8);
  const wide =
    record + WIDE_END_BYTES <= from + locator ? await file.range(record, record + WIDE_END_BYTES) : undefined;
  if (wide?.length !== WIDE_END_BYTES) throw new Refused("zip-damaged", "no wide list of parts");
  const wideView = viewOf(wide);
  if (wideView.getUint32(0, true) !== WIDE_END_SIGN || wideView.getUint32(16, true) !== 0)
    throw new Refused("zip-damaged", "no wide list of parts");
  return {
    count: wideNumber(wideView, 32),
    bytes: wideNumber(wideView, 40),
    from: wideNumber(wideView, 48),
    until: record,
  };
}

export const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** A number of eight bytes; one beyond what can be counted exactly is no size of a file. */
function wideNumber(view: DataView, at: number): number {
  const value = view.getBigUint64(at, true);
  if (value > BigInt(Number.MAX_SAFE_INTEGER)) throw new Refused("zip-damaged", "a size beyond any file");
  return Number(value);
}

export const nameOf = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => String.fromCharCode(byte))
    .join("")
    .replaceAll("\\", "/");
