import type { ListedLine, MonthPack } from "../../audit/index.ts";
import { packWords } from "../../language/index.ts";
import type { Block } from "../line/index.ts";

/** As many rows of one list as leave the page one page; the rest is told by its number. */
const MOST_ROWS = 9;

/** Page 4: whom to call, what is overdue, what was passed, and what this month decides. */
export function peopleBlocks(pack: MonthPack): readonly Block[] {
  const { lists } = packWords;
  const overrides = pack.overrides.map(({ code, lines }): ListedLine => ({
    line: code,
    why: [`${lines.length} lines`],
  }));
  return [
    {
      kind: "columns",
      shares: [1, 1],
      columns: [
        [
          ...list(lists.noOwner, pack.noOwner),
          ...list(lists.unknownEnds, pack.unknownEnds),
          ...list(lists.overdue, pack.overdue),
        ],
        [
          ...list(lists.overrides, overrides),
          ...list(lists.lowFiltration, pack.lowFiltration),
          ...list(lists.shortStays, pack.shortStays),
        ],
      ],
    },
    { kind: "heading", text: packWords.nextAction },
    { kind: "write", items: packWords.nextItems },
    { kind: "soft", text: packWords.cases },
  ];
}

function list(title: string, rows: readonly ListedLine[]): readonly Block[] {
  const shown = rows.slice(0, MOST_ROWS).map(({ line, why }) => (why.length > 0 ? `${line}: ${why.join(", ")}` : line));
  return [
    { kind: "heading", text: rows.length === 0 ? title : `${title}: ${rows.length}` },
    rows.length === 0 ? { kind: "say", text: packWords.none } : { kind: "list", numbered: false, items: shown },
    ...(rows.length > MOST_ROWS ? [{ kind: "soft", text: packWords.more(rows.length - MOST_ROWS) } as const] : []),
  ];
}
