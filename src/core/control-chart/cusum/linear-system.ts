/** Solves A x = b by elimination with the largest pivot; A is overwritten. Enough for chains of a thousand states. */
export function solveLinear(rows: Float64Array[], right: Float64Array): Float64Array {
  const n = right.length;
  for (let column = 0; column < n; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < n; row += 1)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    [right[column], right[pivot]] = [right[pivot]!, right[column]!];
    const top = rows[column]!;
    for (let row = column + 1; row < n; row += 1) {
      const under = rows[row]!;
      const factor = under[column]! / top[column]!;
      if (factor === 0) continue;
      for (let at = column; at < n; at += 1) under[at] = under[at]! - factor * top[at]!;
      right[row] = right[row]! - factor * right[column]!;
    }
  }
  for (let row = n - 1; row >= 0; row -= 1) {
    let rest = right[row]!;
    for (let at = row + 1; at < n; at += 1) rest -= rows[row]![at]! * right[at]!;
    right[row] = rest / rows[row]![row]!;
  }
  return right;
}

/** Mean steps to absorption from every state: (I - Q) L = 1, Q the moves that stay inside. */
export function meanSteps(
  states: number,
  stay: (from: number, add: (to: number, chance: number) => void) => void,
): Float64Array {
  const rows = Array.from({ length: states }, (_, from) => {
    const row = new Float64Array(states);
    row[from] = 1;
    stay(from, (to, chance) => {
      row[to] = row[to]! - chance;
    });
    return row;
  });
  return solveLinear(rows, new Float64Array(states).fill(1));
}
