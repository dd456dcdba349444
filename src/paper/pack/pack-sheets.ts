import type { Measure, MonthPack, Yardstick } from "../../audit/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { packWords, paperFoot, paperPractice, sayPage } from "../../language/index.ts";
import { countLimitsFrom, type LocalPolicy } from "../../policy/index.ts";
import type { Block, Sheet } from "../line/index.ts";
import { elsewhereBlocks } from "./elsewhere.ts";
import { monthBlocks } from "./month-page.ts";
import { peopleBlocks } from "./people-page.ts";
import { timeBlocks } from "./time-page.ts";
import { whereBlocks } from "./where-page.ts";

const PAGES = 4;
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
    /** What others published, for the foot of the third page. */
    readonly yardsticks?: readonly Yardstick[];
    /** How a line of a list is named; its key where nothing better is known. */
    readonly nameOf?: (key: string) => string;
  },
): readonly Sheet[] {
  const foot = paperFoot(undefined, printing.policy.version, printing.printedAt);
  const nameOf = printing.nameOf ?? ((key: string) => key);
  const pages: readonly (readonly Block[])[] = [
    monthBlocks(pack, measures),
    timeBlocks(pack, countLimitsFrom(printing.policy.table).signalChance, nameOf),
    [...whereBlocks(pack), ...elsewhereBlocks(pack, measures, printing.yardsticks ?? [])],
    peopleBlocks(pack, nameOf),
  ];
  return pages.map((blocks, at) => ({
    paper: "monthly pack",
    plate: PLATE,
    title: packWords.titles[at] as string,
    caption: packWords.captions[at] as string,
    name: packWords.name(pack),
    identifiers: packWords.identifiers(pack),
    arm: "",
    practice: printing.practice ? paperPractice : "",
    foot: printing.practice ? `${paperPractice}. ${foot}` : foot,
    page: sayPage(at + 1, PAGES),
    size: "A4",
    typePt: 10.5,
    blocks,
  }));
}
