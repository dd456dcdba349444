import type { ListedLine, MonthPack } from "../../audit/index.ts";
import { parseCivilDate } from "../../core/calendar/index.ts";
import { packWords, sayEmptyList } from "../../language/index.ts";
import type { Block } from "../line/index.ts";
import { expiringRows, recalledRows } from "./lot-rows.ts";

/** As many rows of one list as leave the page one page; the rest is told by its number. */
const MOST_ROWS = 12;

/** Page 4: whom to call, what is overdue, what was passed, and what this month decides. */
export function peopleBlocks(pack: MonthPack, nameOf: (key: string) => string): readonly Block[] {
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
          ...lots(lists.recalled, recalledRows(pack.lots, nameOf)),
          ...list(lists.noOwner, pack.noOwner, nameOf, sayEmptyList(pack, "no-owner")),
          ...list(lists.unknownEnds, pack.unknownEnds.map(lastSeen), nameOf),
          ...list(lists.overdue, pack.overdue, nameOf, sayEmptyList(pack, "overdue-care")),
        ],
        [
          ...list(lists.overrides, overrides, (code) => code, sayEmptyList(pack, "overrides")),
          ...list(lists.lowFiltration, pack.lowFiltration, nameOf, sayEmptyList(pack, "low-filtration")),
          ...list(lists.shortStays, pack.shortStays, nameOf, sayEmptyList(pack, "short-stay")),
          ...lots(lists.expiring, expiringRows(pack.lots)),
        ],
      ],
    },
    { kind: "heading", text: packWords.nextAction },
    { kind: "write", items: packWords.nextItems },
    { kind: "soft", text: packWords.cases },
  ];
}

/** Lots are not in every table: that is said, and never looks like none. */
const lots = (title: string, rows: readonly ListedLine[] | undefined): readonly Block[] =>
  rows === undefined
    ? [
        { kind: "heading", text: title },
        { kind: "say", text: packWords.lotsElsewhere },
      ]
    : list(title, rows, (lot) => lot);

const lastSeen = ({ line, why }: ListedLine): ListedLine => ({
  line,
  why: why.map((day) => packWords.lastSeen(parseCivilDate(day))),
});

function list(
  title: string,
  rows: readonly ListedLine[],
  nameOf: (key: string) => string,
  empty: string = packWords.none,
): readonly Block[] {
  const shown = rows
    .slice(0, MOST_ROWS)
    .map(({ line, why }) => (why.length > 0 ? `${nameOf(line)}: ${why.join(", ")}` : nameOf(line)));
  return [
    { kind: "heading", text: rows.length === 0 ? title : `${title}: ${rows.length}` },
    rows.length === 0 ? { kind: "say", text: empty } : { kind: "list", numbered: false, items: shown },
    ...(rows.length > MOST_ROWS ? [{ kind: "soft", text: packWords.more(rows.length - MOST_ROWS) } as const] : []),
  ];
}
