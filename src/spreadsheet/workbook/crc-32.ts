const TABLES = tables();

/** Four tables, so that four bytes are taken at one step. */
function tables(): readonly Uint32Array[] {
  const first = Uint32Array.from({ length: 256 }, (_, byte) => {
    let rest = byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest & 1) === 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
    return rest;
  });
  const all = [first];
  for (let next = 1; next < 4; next += 1) {
    const before = all[next - 1] as Uint32Array;
    all.push(Uint32Array.from(before, (rest) => (rest >>> 8) ^ (first[rest & 0xff] as number)));
  }
  return all;
}

/**
 * Cyclic redundancy check of a zip's parts: reflected polynomial 0xEDB88320, begun with and ended by all ones.
 * `before` is the check of the bytes that came earlier, so that pieces give the check of the whole.
 * Source: PKWARE, APPNOTE.TXT 6.3.3, section 4.4.7; ISO 3309 (from memory). Example: "123456789" gives 0xCBF43926.
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  const [a, b, c, d] = TABLES as [Uint32Array, Uint32Array, Uint32Array, Uint32Array];
  let rest = ~before;
  let at = 0;
  for (const last = bytes.length - 4; at <= last; at += 4) {
    rest ^=
      (bytes[at] as number) |
      ((bytes[at + 1] as number) << 8) |
      ((bytes[at + 2] as number) << 16) |
      ((bytes[at + 3] as number) << 24);
    rest =
      (d[rest & 0xff] as number) ^
      (c[(rest >>> 8) & 0xff] as number) ^
      (b[(rest >>> 16) & 0xff] as number) ^
      (a[rest >>> 24] as number);
  }
  for (; at < bytes.length; at += 1) rest = (rest >>> 8) ^ (a[(rest ^ (bytes[at] as number)) & 0xff] as number);
  return ~rest >>> 0;
}
