import type { CaseStory } from "../../audit/index.ts";
import { caseWords } from "../../language/index.ts";
import type { Sheet } from "../line/index.ts";
import { caseBlocks } from "./case-blocks.ts";
import { caseFrame, type CasePrinting } from "./case-frame.ts";

/** After the pack. */
const PLATE = "XIV";

/** A line's story on one page. No date of printing stands on it: that would tell when it was. */
export const caseSheet = (story: CaseStory, printing: CasePrinting): Sheet => ({
  ...caseFrame(printing),
  paper: "case",
  plate: PLATE,
  title: caseWords.title,
  caption: caseWords.caption,
  typePt: 12,
  blocks: caseBlocks(story),
});
