import type { ListedLine, PackLots } from "../../audit/index.ts";
import { packWords } from "../../language/index.ts";

/** Every line a recalled lot reached that may be in, lines in place first; undefined where no lots came along. */
export function recalledRows(
  lots: PackLots | undefined,
  nameOf: (key: string) => string,
  /** So many names behind one lot; the rest is on the page of the lots. */
  mostNames: number,
): readonly ListedLine[] | undefined {
  if (!lots) return undefined;
  const named = (keys: readonly string[], words: string): readonly string[] => {
    const names = keys.slice(0, mostNames).map(nameOf).join("; ");
    const rest = keys.length > mostNames ? `; ${packWords.moreLines(keys.length - mostNames)}` : "";
    return keys.length === 0 ? [] : [`${keys.length} ${words} (${names}${rest})`];
  };
  const rows = lots.recalled.map(({ lot, stillIn, unknownEnds, handedOn }): ListedLine => {
    const why = [
      ...named(stillIn, packWords.inPlace),
      ...named(unknownEnds, packWords.endNotKnown),
      ...named(handedOn, packWords.handedOn),
    ];
    return why.length > 0 ? { line: lot, why } : { line: packWords.recalledNone(lot), why };
  });
  const missing = lots.lotMissing.length;
  return missing > 0 ? [...rows, { line: packWords.lotMissing(missing), why: [] }] : rows;
}

export const expiringRows = (lots: PackLots | undefined): readonly ListedLine[] | undefined =>
  lots?.expiring.map(({ lot, expiresOn, daysLeft, left }) => ({
    line: lot,
    why: [packWords.left(left), packWords.expires(expiresOn, daysLeft)],
  }));
