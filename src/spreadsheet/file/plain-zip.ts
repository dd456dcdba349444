/** Cyclic redundancy check of ISO 3309, reflected polynomial 0xEDB88320 (from memory). */
const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = (rest & 1) === 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

function crcOf(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) rest = (rest >>> 8) ^ (CRC_TABLE[(rest ^ byte) & 0xff] as number);
  return (rest ^ 0xffffffff) >>> 0;
}

/**
 * Writes parts into a zip without packing. The workbook reader is given this and never the file itself, so what was
 * checked is what is read: no second directory, no part that was not looked at.
 */
export function plainZip(parts: readonly { readonly name: string; readonly bytes: Uint8Array }[]): Uint8Array {
  const names = parts.map(({ name }) => Uint8Array.from(name, (sign) => sign.charCodeAt(0) & 0xff));
  const size = parts.reduce((sum, { bytes }, index) => sum + bytes.length + 76 + 2 * (names[index]?.length ?? 0), 22);
  const zip = new Uint8Array(size);
  const view = new DataView(zip.buffer);
  const starts: number[] = [];
  const checks = parts.map(({ bytes }) => crcOf(bytes));
  let at = 0;
  /** The fields that the local and the central record share, from the version needed to the extra length. */
  const facts = (from: number, index: number) => {
    const length = parts[index]?.bytes.length ?? 0;
    view.setUint16(from, 20, true);
    view.setUint32(from + 10, checks[index] ?? 0, true);
    view.setUint32(from + 14, length, true);
    view.setUint32(from + 18, length, true);
    view.setUint16(from + 22, names[index]?.length ?? 0, true);
  };
  for (const [index, { bytes }] of parts.entries()) {
    const name = names[index] as Uint8Array;
    starts.push(at);
    view.setUint32(at, 0x04034b50, true);
    facts(at + 4, index);
    zip.set(name, at + 30);
    zip.set(bytes, at + 30 + name.length);
    at += 30 + name.length + bytes.length;
  }
  const directory = at;
  for (const [index, name] of names.entries()) {
    view.setUint32(at, 0x02014b50, true);
    view.setUint16(at + 4, 20, true);
    facts(at + 6, index);
    view.setUint32(at + 42, starts[index] ?? 0, true);
    zip.set(name, at + 46);
    at += 46 + name.length;
  }
  view.setUint32(at, 0x06054b50, true);
  view.setUint16(at + 8, parts.length, true);
  view.setUint16(at + 10, parts.length, true);
  view.setUint32(at + 12, at - directory, true);
  view.setUint32(at + 16, directory, true);
  return zip;
}
