const [A, Z, LOWER_A, LOWER_Z, ZERO, NINE] = [65, 90, 97, 122, 48, 57] as const;
const LETTERS = 26;
const MOST_LETTERS = 3;

/** Row and column of a cell by its name, the first of each being 1. */
export interface CellPlace {
  readonly column: number;
  readonly row: number;
}

/**
 * The place of a cell: letters for its column in base 26 without a nought, digits for its row; undefined for anything else.
 * Source: ECMA-376 part 1, 18.18.7 (ST_CellRef) (from memory). Example: "AA10" is column 27, row 10.
 */
export function cellPlace(name: string): CellPlace | undefined {
  let column = 0;
  let at = 0;
  for (; at < name.length; at += 1) {
    const code = name.charCodeAt(at);
    if (code >= A && code <= Z) column = column * LETTERS + code - A + 1;
    else if (code >= LOWER_A && code <= LOWER_Z) column = column * LETTERS + code - LOWER_A + 1;
    else break;
  }
  if (at === 0 || at > MOST_LETTERS || at === name.length) return undefined;
  let row = 0;
  for (; at < name.length; at += 1) {
    const code = name.charCodeAt(at);
    if (code < ZERO || code > NINE) return undefined;
    row = row * 10 + code - ZERO;
  }
  return row === 0 ? undefined : { column, row };
}
