import type { ReactNode } from "react";
import type { Instant } from "../../core/calendar/index.ts";
import { linePaper, type LinePaperName } from "../../paper/line/index.ts";
import { answerLine, type LineView, type PatientView } from "../../register/index.ts";
import { useRecord } from "../record/record-context.tsx";
import { knownAt, plannedFor, rulesFrom } from "../record/use-line-answer.ts";
import { SheetPage } from "./sheet-page.tsx";
import "./line-paper.css";

/** One paper of a line as it prints: the same sheet the PDF is made of. Stands inside the record's context. */
export function LinePaper({
  paper,
  line,
  patient,
  issue,
  printedAt,
  recalled,
}: {
  readonly paper: LinePaperName;
  readonly line: LineView;
  readonly patient: PatientView | undefined;
  readonly issue: number;
  readonly printedAt: Instant;
  /** Why the line's lot was called back, for the recall letter. */
  readonly recalled?: string;
}): ReactNode {
  const { register, policy } = useRecord();
  const answer = answerLine(
    line,
    plannedFor(register, line),
    knownAt(register, printedAt),
    printedAt,
    rulesFrom(policy),
  );
  const sheet = linePaper(paper, {
    line,
    patient,
    answer,
    issue,
    printedAt,
    policy,
    ...(recalled === undefined ? {} : { recalled }),
  });
  return <SheetPage sheet={sheet} />;
}
