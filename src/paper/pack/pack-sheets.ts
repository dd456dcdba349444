import type { Measure, MonthPack, Yardstick } from "../../audit/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { packWords, paperFoot, paperPractice, sayPage } from "../../language/index.ts";
import { countLimitsFrom, type LocalPolicy } from "../../policy/index.ts";
import type { Block, PageSize, Sheet } from "../line/index.ts";
import { elsewhereBlocks } from "./elsewhere.ts";
import { monthBlocks } from "./month-page.ts";
import { peopleBlocks } from "./people-page.ts";
import { ROOMS, type Room } from "./room.ts";
import { timeBlocks } from "./time-page.ts";
import { whereBlocks } from "./where-page.ts";

const [PAGES, TIME] = [4, 1];
/** After the twelve papers of a line. */
const PLATE = "XIII";

/** The month as four grey pages: sentences, time, where and with what, people and things to do. Never a fifth. */
export function packSheets(
  pack: MonthPack,
  measures: readonly Measure[],
  printing: {
    readonly policy: LocalPolicy;
    readonly printedAt: Instant;
    readonly practice: boolean;
    readonly size?: PageSize;
    /** What others published, for the foot of the third page. */
    readonly yardsticks?: readonly Yardstick[];
    /** How a line of a list is named; its key where nothing better is known. */
    readonly nameOf?: (key: string) => string;
  },
): readonly Sheet[] {
  const foot = paperFoot(undefined, printing.policy.version, printing.printedAt);
  const nameOf = printing.nameOf ?? ((key: string) => key);
  const limits = countLimitsFrom(printing.policy.table);
  const pages: readonly ((room: Room) => readonly Block[])[] = [
    (room) => monthBlocks(pack, measures, limits, room),
    (room) => timeBlocks(pack, measures, limits, nameOf, room),
    (room) => [...whereBlocks(pack, limits, room), ...elsewhereBlocks(pack, measures, printing.yardsticks ?? [], room)],
    (room) => peopleBlocks(pack, nameOf, room),
  ];
  return pages.map((page, at) => {
    const [blocks = [], ...tighter] = differing(ROOMS.map(page));
    return {
      paper: "monthly pack",
      plate: PLATE,
      title: packWords.titles[at] as string,
      caption: at === TIME && !pack.monitor ? packWords.beginning : (packWords.captions[at] as string),
      name: packWords.name(pack),
      identifiers: packWords.identifiers(pack),
      arm: "",
      practice: printing.practice ? paperPractice : "",
      foot: printing.practice ? `${paperPractice}. ${foot}` : foot,
      page: sayPage(at + 1, PAGES),
      size: printing.size ?? "A4",
      typePt: 10.5,
      blocks,
      tighter,
    };
  });
}

/** Most pages are short: what is left of them in less room is the same page. */
function differing(pages: readonly (readonly Block[])[]): readonly (readonly Block[])[] {
  const texts = pages.map((blocks) => JSON.stringify(blocks));
  return pages.filter((_, at) => texts[at] !== texts[at - 1]);
}
