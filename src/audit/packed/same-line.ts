/**
 * Groups of lines that agree in some numbers, without an object for each group: a table of places with open addressing.
 * `first[i]` is the first line of the group of line i, and `next[i]` the line after it in the group, or -1.
 * Lines with `takes` false are in no group (-1).
 */
export interface LineGroups {
  readonly first: Int32Array;
  readonly next: Int32Array;
}

export function groupLines(
  count: number,
  takes: (line: number) => boolean,
  hash: (line: number) => number,
  same: (a: number, b: number) => boolean,
): LineGroups {
  let size = 16;
  while (size < count * 2) size *= 2;
  const table = new Int32Array(size).fill(-1);
  const first = new Int32Array(count).fill(-1);
  const next = new Int32Array(count).fill(-1);
  const last = new Int32Array(count);
  for (let line = 0; line < count; line += 1) {
    if (!takes(line)) continue;
    let at = mixed(hash(line)) & (size - 1);
    for (;;) {
      const head = table[at] as number;
      if (head === -1) {
        table[at] = line;
        first[line] = line;
        last[line] = line;
        break;
      }
      if (same(head, line)) {
        first[line] = head;
        next[last[head] as number] = line;
        last[head] = line;
        break;
      }
      at = (at + 1) & (size - 1);
    }
  }
  return { first, next };
}

/** Spreads neighbours apart. Source: Steele GL and others 2014, OOPSLA (mixing constants, from memory). */
function mixed(value: number): number {
  let mix = value | 0;
  mix = Math.imul(mix ^ (mix >>> 16), 0x85ebca6b);
  mix = Math.imul(mix ^ (mix >>> 13), 0xc2b2ae35);
  return (mix ^ (mix >>> 16)) >>> 0;
}
