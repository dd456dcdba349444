import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import { LINE_PAPER_NAMES } from "../../paper/line/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import { practiceRecord } from "../../practice/index.ts";
import {
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  type History,
  type Subject,
} from "../../register/index.ts";
import { RecordContext, type RecordPlace } from "../record/record-context.tsx";
import { LinePaper } from "./line-paper.tsx";

const now = "2026-11-26T11:02+00:00" as Instant;
const histories = new Map<Subject, History>();
for (const [at, event] of practiceRecord("2026-11-26" as CivilDate, "+00:00").entries()) {
  const history = histories.get(event.subject) ?? initialHistory(event.subject);
  const stored = { ...event, position: at + 1, version: history.version + 1, chainHash: "" };
  histories.set(event.subject, evolveHistory(history, stored));
}
const register = { histories, contact: { kind: "alone" }, now: () => now } as unknown as RecordPlace["register"];

const place: RecordPlace = { register, policy: defaultPolicy };

describe.each(LINE_PAPER_NAMES)("the %s on the page", (paper) => {
  test("says on the page what it says in the PDF: whose, which arm, when, and that it is a copy", () => {
    const line = lineView(histories.get("line:practice-rowan") as History);
    const patient = patientView(histories.get("patient:practice-rowan") as History);
    const html = renderToStaticMarkup(
      <RecordContext.Provider value={place}>
        <LinePaper paper={paper} line={line} patient={patient} issue={2} printedAt={now} />
      </RecordContext.Provider>,
    );
    for (const said of ["ROWAN, Edda", "no. P-20418", "Issue 2", "page 1 of 1", "check the screen for a newer one"]) {
      expect(html).toContain(said);
    }
    expect(html).toMatch(/RIGHT ARM|BOTH ARMS/);
    expect(html).toContain(`data-paper="${paper}"`);
    // every drawing carries its sentence
    expect(html.match(/<svg/g)?.length ?? 0).toBe(html.match(/<svg[^>]*aria-label="[^"]{10,}"/g)?.length ?? 0);
  });
});
