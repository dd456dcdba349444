import type { CaseStory } from "../../audit/index.ts";
import { caseWords, sayPage } from "../../language/index.ts";
import type { Sheet } from "../line/index.ts";
import { caseBlocks } from "./case-blocks.ts";

/** After the pack. */
const PLATE = "XIV";

/** A line's story on one page. No date of printing stands on it: that would tell when it was. */
export function caseSheet(
  story: CaseStory,
  { policyVersion, practice }: { readonly policyVersion: string; readonly practice: boolean },
): Sheet {
  const foot = caseWords.foot(policyVersion);
  return {
    paper: "case",
    plate: PLATE,
    title: caseWords.title,
    caption: caseWords.caption,
    name: caseWords.name,
    identifiers: caseWords.identifiers,
    arm: "",
    practice: practice ? caseWords.practice : "",
    foot: practice ? `${caseWords.practice}. ${foot}` : foot,
    page: sayPage(1, 1),
    size: "A4",
    typePt: 12,
    blocks: caseBlocks(story),
  };
}
