import type { Measure, MonthPack, Yardstick } from "../../audit/index.ts";
import { packRow, packWords } from "../../language/index.ts";
import type { Block } from "../line/index.ts";
import { elsewhereBlocks } from "./elsewhere.ts";

const SHARES = [3.2, 1.4, 1.9, 2.8, 2];

/** Page 1: what was decided last month and whether it moved anything; then the month against the year before. */
export function monthBlocks(
  pack: MonthPack,
  measures: readonly Measure[],
  yardsticks: readonly Yardstick[],
): readonly Block[] {
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  const rows = pack.figures.flatMap((figure) => {
    const measure = byId.get(figure.now.measure);
    const empty = figure.now.form === "nothing to count over" && figure.now.given === 0;
    return measure && !empty ? [packRow(figure, measure)] : [];
  });
  const moved = packWords.moved(pack);
  return [
    { kind: "heading", text: packWords.lastAction },
    { kind: "say", text: packWords.action(pack) },
    ...(moved === "" ? [] : [{ kind: "say", text: moved } as const]),
    { kind: "table", head: packWords.monthHead, shares: SHARES, rows, tight: true },
    ...pack.enough.map(({ measure, expectedInMonth, events }): Block => ({
      kind: "soft",
      text: packWords.enough(measure, expectedInMonth, events),
    })),
    ...(pack.declinedInstead.length > 0 ? [{ kind: "say", text: packWords.instead(pack) } as const] : []),
    ...(pack.issues.length > 0
      ? [
          { kind: "heading", text: packWords.record } as const,
          {
            kind: "list",
            numbered: false,
            items: pack.issues.map(({ code, lines }) => packWords.issue(code, lines.length)),
          } as const,
        ]
      : []),
    ...elsewhereBlocks(pack, measures, yardsticks),
  ];
}
