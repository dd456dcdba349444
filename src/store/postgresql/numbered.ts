/** The same statement with $1, $2 for its question marks; those inside quotes are left alone. */
export function numbered(statement: string): string {
  let count = 0;
  return statement.replaceAll(/'(?:[^']|'')*'|\?/g, (found) => (found === "?" ? `$${(count += 1)}` : found));
}
