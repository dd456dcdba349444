/**
 * Slips of the pen between two words: letters changed, lost or added, neighbours swapped (each counts one).
 * Source: Damerau FJ 1964, Commun ACM 7:171 (restricted edit distance).
 * Example: slips("20418", "20481") is 1.
 */
export function slips(a: string, b: string): number {
  const rows: number[][] = Array.from({ length: a.length + 1 }, (_, row) => [
    row,
    ...Array.from({ length: b.length }, () => 0),
  ]);
  const at = (row: number, column: number) => (rows[row] as number[])[column] as number;
  for (let column = 0; column <= b.length; column += 1) (rows[0] as number[])[column] = column;
  for (let row = 1; row <= a.length; row += 1) {
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1] ? 0 : 1;
      let least = Math.min(at(row - 1, column) + 1, at(row, column - 1) + 1, at(row - 1, column - 1) + same);
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) least = Math.min(least, at(row - 2, column - 2) + 1);
      (rows[row] as number[])[column] = least;
    }
  }
  return at(a.length, b.length);
}
