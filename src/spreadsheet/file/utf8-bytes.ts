/** How many bytes must follow a lead byte, and the range of the first of them; undefined for a byte that leads nothing. */
function tailOf(lead: number): readonly [count: number, least: number, most: number] | undefined {
  if (lead >= 0xc2 && lead <= 0xdf) return [1, 0x80, 0xbf];
  if (lead === 0xe0) return [2, 0xa0, 0xbf];
  if (lead === 0xed) return [2, 0x80, 0x9f];
  if (lead >= 0xe1 && lead <= 0xef) return [2, 0x80, 0xbf];
  if (lead === 0xf0) return [3, 0x90, 0xbf];
  if (lead === 0xf4) return [3, 0x80, 0x8f];
  return lead >= 0xf1 && lead <= 0xf3 ? [3, 0x80, 0xbf] : undefined;
}

/**
 * What the bytes can be: plain letters only, UTF-8 with at least one longer letter, or other. No exception is thrown and
 * caught for each row, as the platform's decoder would. A letter cut off by the end is other, unless `cut` allows it.
 * Source: The Unicode Standard, table 3-7, well-formed UTF-8 byte sequences (from memory).
 */
export function bytesAre(bytes: Uint8Array, from: number, to: number, cut = false): "plain" | "UTF-8" | "other" {
  let found: "plain" | "UTF-8" = "plain";
  let at = from;
  while (at < to) {
    const lead = bytes[at] as number;
    at += 1;
    if (lead < 0x80) continue;
    const tail = tailOf(lead);
    if (!tail) return "other";
    const [count, least, most] = tail;
    for (let next = 0; next < count; next += 1, at += 1) {
      if (at >= to) return cut ? "UTF-8" : "other";
      const byte = bytes[at] as number;
      if (byte < (next === 0 ? least : 0x80) || byte > (next === 0 ? most : 0xbf)) return "other";
    }
    found = "UTF-8";
  }
  return found;
}
