import type { MonthPack } from "../../audit/index.ts";
import { twoCaseWords } from "../../language/index.ts";
import type { Block, Sheet } from "../line/index.ts";
import { caseBlocks } from "./case-blocks.ts";
import { caseFrame, type CasePrinting } from "./case-frame.ts";

const PLATE = "XV";

/** The month's two cases side by side, on a sheet of their own that may go round the table. */
export function twoCaseSheet({ cases: { worst, well } }: Pick<MonthPack, "cases">, printing: CasePrinting): Sheet {
  const none = (text: string): readonly Block[] => [{ kind: "say", text }];
  return {
    ...caseFrame(printing),
    paper: "two cases",
    plate: PLATE,
    title: twoCaseWords.title,
    caption: twoCaseWords.caption,
    typePt: 11,
    blocks: [
      { kind: "soft", text: twoCaseWords.rule.join(" ") },
      { kind: "heading", text: twoCaseWords.worst },
      ...(worst ? caseBlocks(worst.story) : none(twoCaseWords.noWorst)),
      { kind: "heading", text: twoCaseWords.well },
      ...(well === undefined
        ? none(twoCaseWords.noWell)
        : well.kind === "line"
          ? caseBlocks(well.story)
          : none(twoCaseWords.declined(well.instead))),
    ],
  };
}
