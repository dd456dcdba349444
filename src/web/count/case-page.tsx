import { useMemo, type ReactNode } from "react";
import { Link } from "wouter";
import { caseCsv, caseFile, caseOfLine } from "../../audit/index.ts";
import { caseWords } from "../../language/index.ts";
import { caseSheet } from "../../paper/case/index.ts";
import { valueIn, type Subject } from "../../register/index.ts";
import { SheetPage } from "../paper/sheet-page.tsx";
import { historyOf, lineOf, referralOf, useRecord } from "../record/record-context.tsx";
import { saveFile } from "../spreadsheet/save-file.ts";
import { limitsOf, sourceOfRecord } from "./count-table.ts";
import "../paper/line-paper.css";

/** A line's story for teaching: the page that prints, and the same as a file; nothing of it is written in the record. */
export function CasePage({ id }: { readonly id: string }): ReactNode {
  const { register, policy } = useRecord();
  const line = lineOf(historyOf(register, `line:${id}`));
  const story = useMemo(() => {
    const { table } = sourceOfRecord(register, policy);
    const row = table.lines.find(({ key }) => key === id);
    const asked = valueIn(line.said.referral);
    const history = asked === undefined ? undefined : register.histories.get(`referral:${asked}` as Subject);
    const referral = history && referralOf(history);
    return row && caseOfLine({ line, referral, row }, table.lines, limitsOf(policy));
  }, [register, policy, line, id]);
  if (!story) return <p className="headline">{caseWords.none}</p>;
  const practice = line.patient?.startsWith("practice-") ?? false;
  const sheet = caseSheet(story, { policyVersion: policy.version, practice });
  return (
    <main className="paper-route">
      <div className="no-print">
        <nav aria-label="Paper">
          <Link href={`/line/${id}`}>{caseWords.back}</Link>
        </nav>
        {story.rare ? <p role="alert">{caseWords.rare(story.peopleAlike)}</p> : null}
        <p className="presses">
          <button type="button" onClick={() => globalThis.print()}>
            {caseWords.print}
          </button>
          <button
            type="button"
            data-save="json"
            onClick={() =>
              saveFile("line-story.json", JSON.stringify(caseFile(story, policy.version), null, 2), "application/json")
            }
          >
            {caseWords.saveJson}
          </button>
          <button
            type="button"
            data-save="csv"
            onClick={() => saveFile("line-story.csv", caseCsv(story), "text/csv;charset=utf-8")}
          >
            {caseWords.saveCsv}
          </button>
        </p>
      </div>
      <SheetPage sheet={sheet} />
    </main>
  );
}
