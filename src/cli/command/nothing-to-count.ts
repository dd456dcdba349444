import { checkTable, lineCount } from "../../audit/index.ts";
import { leftOutUntilMended, noLineYet } from "../../language/index.ts";
import type { LineTableInput } from "./line-table.ts";

/** The one sentence of a table without a line, and without a referral to count in its place. */
export const nothingToCount = ({ table }: Pick<LineTableInput, "table">): string | undefined =>
  lineCount(table) === 0 && table.referrals.length === 0 ? noLineYet : undefined;

/** How many lines no answer can use; in no sentence where it is none. */
export function leftOutOf({ table, limits, surveillance }: LineTableInput): readonly string[] {
  const { facts, linesGiven } = checkTable(table, limits, surveillance);
  return facts.length === linesGiven ? [] : [leftOutUntilMended(linesGiven - facts.length, linesGiven)];
}
