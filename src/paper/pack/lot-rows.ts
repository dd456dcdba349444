import type { ListedLine, PackLots } from "../../audit/index.ts";
import { packWords } from "../../language/index.ts";

/** Every line a recalled lot reached that may be in, lines in place first; undefined where no lots came along. */
export function recalledRows(
  lots: PackLots | undefined,
  nameOf: (key: string) => string,
): readonly ListedLine[] | undefined {
  if (!lots) return undefined;
  const rows = lots.recalled.flatMap(({ lot, stillIn, unknownEnds, handedOn }): readonly ListedLine[] => {
    const named = (keys: readonly string[], words: string): readonly ListedLine[] =>
      keys.map((key) => ({ line: lot, why: [words, nameOf(key)] }));
    const own = [
      ...named(stillIn, packWords.inPlace),
      ...named(unknownEnds, packWords.endNotKnown),
      ...named(handedOn, packWords.handedOn),
    ];
    return own.length > 0 ? own : [{ line: packWords.recalledNone(lot), why: [] }];
  });
  const missing = lots.lotMissing.length;
  return missing > 0 ? [...rows, { line: packWords.lotMissing(missing), why: [] }] : rows;
}

export const expiringRows = (lots: PackLots | undefined): readonly ListedLine[] | undefined =>
  lots?.expiring.map(({ lot, expiresOn, daysLeft, left }) => ({
    line: lot,
    why: [packWords.left(left), packWords.expires(expiresOn, daysLeft)],
  }));
