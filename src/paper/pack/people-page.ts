import type { ListedLine, ListGap, MonthPack } from "../../audit/index.ts";
import { parseCivilDate } from "../../core/calendar/index.ts";
import { cutShort, numberOf, packWords } from "../../language/index.ts";
import type { Block } from "../line/index.ts";
import { expiringRows, recalledRows } from "./lot-rows.ts";
import type { Room } from "./room.ts";

/** Page 4: whom to call, what is overdue, what was passed, and what this month decides. */
export function peopleBlocks(pack: MonthPack, nameOf: (key: string) => string, room: Room): readonly Block[] {
  const { lists } = packWords;
  const { gaps } = pack;
  const list = (title: string, rows: readonly ListedLine[], name: (key: string) => string, gap?: ListGap) =>
    listed(title, rows, name, room, gap);
  /** Lots are not in every table: that is said, and never looks like none. */
  const lots = (title: string, rows: readonly ListedLine[] | undefined): readonly Block[] =>
    rows === undefined
      ? [
          { kind: "heading", text: title },
          { kind: "say", text: packWords.lotsElsewhere },
        ]
      : list(title, rows, (lot) => lot);
  const overrides = pack.overrides.map(({ code, lines }): ListedLine => ({
    line: code,
    why: [numberOf(lines.length, "line")],
  }));
  return [
    {
      kind: "columns",
      shares: [1, 1],
      columns: [
        [
          ...lots(lists.recalled, recalledRows(pack.lots, nameOf, room.names)),
          ...list(lists.noOwner, pack.noOwner, nameOf, gaps.noOwner),
          ...list(lists.unknownEnds, pack.unknownEnds.map(lastSeen), nameOf),
          ...list(lists.overdue, pack.overdue, nameOf, gaps.overdue),
        ],
        [
          ...list(lists.overrides, overrides, (code) => code, gaps.overrides),
          ...list(lists.lowFiltration, pack.lowFiltration, nameOf, gaps.lowFiltration),
          ...list(lists.shortStays, pack.shortStays, nameOf, gaps.shortStays),
          ...lots(lists.expiring, expiringRows(pack.lots)),
        ],
      ],
    },
    { kind: "heading", text: packWords.nextAction },
    { kind: "write", items: packWords.nextItems },
    { kind: "soft", text: packWords.cases },
  ];
}

const lastSeen = ({ line, why }: ListedLine): ListedLine => ({
  line,
  why: why.map((day) => packWords.lastSeen(parseCivilDate(day))),
});

/** An empty list whose answer is not known of some lines says of how many, and "none" only of the others. */
function listed(
  title: string,
  rows: readonly ListedLine[],
  nameOf: (key: string) => string,
  room: Pick<Room, "rows" | "signs">,
  gap: ListGap = { notKnown: 0, given: 0 },
): readonly Block[] {
  const shown = rows
    .slice(0, room.rows)
    .map(({ line, why }) => cutShort(why.length > 0 ? `${nameOf(line)}: ${why.join(", ")}` : nameOf(line), room.signs));
  return [
    { kind: "heading", text: rows.length === 0 ? title : `${title}: ${rows.length}` },
    rows.length === 0
      ? { kind: "say", text: packWords.noneListed(gap) }
      : { kind: "list", numbered: false, items: shown },
    ...(rows.length > 0 && gap.notKnown > 0 ? [{ kind: "soft", text: packWords.gap(gap) } as const] : []),
    ...(rows.length > room.rows ? [{ kind: "soft", text: packWords.more(rows.length - room.rows) } as const] : []),
  ];
}
