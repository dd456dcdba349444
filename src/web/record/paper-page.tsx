import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import { LINE_PAPER_NAMES, type LinePaperName } from "../../paper/line/index.ts";
import { lotKey, lotView, measured, valueIn, type Author, type LineView, type Subject } from "../../register/index.ts";
import { LinePaper } from "../paper/line-paper.tsx";
import type { Register } from "../register/register.ts";
import { historyOf, lineOf, patientFor, useRecord } from "./record-context.tsx";
import { Signer } from "../register/signer.tsx";

/** One paper of a line, as it prints; signing it writes down which issue is in whose hands. */
export function PaperPage({ id, name }: { readonly id: string; readonly name: string }): ReactNode {
  const { register } = useRecord();
  const subject: Subject = `line:${id}`;
  const line = lineOf(historyOf(register, subject));
  const paper = LINE_PAPER_NAMES.find((one) => one === name);
  const [printedAt] = useState(() => register.now());
  const [told, tell] = useState<string>();
  if (!paper || !line.placed) return <p className="headline">This paper is not on this device.</p>;
  const issue = nextIssue(line, paper);
  const recalled = recalledBecause(register, line);
  const sign = async (author: Author): Promise<void> => {
    const data = measured({ paper, issue });
    await register.write([{ subject, type: "PaperIssued", data, happenedAt: register.now(), author }]);
    tell(`Issue ${issue} is written down.`);
    globalThis.print();
  };
  return (
    <main className="paper-route">
      <nav className="no-print" aria-label="Paper">
        <Link href={`/line/${id}`}>Back to the line</Link>
      </nav>
      <LinePaper
        paper={paper}
        line={line}
        patient={patientFor(register, line.patient)}
        issue={told === undefined ? issue : issue - 1}
        printedAt={printedAt}
        {...(recalled === undefined ? {} : { recalled })}
      />
      <div className="no-print">
        {told === undefined ? (
          <Signer
            register={register}
            busy={false}
            question={undefined}
            word="Sign and print"
            sign={(author) => void sign(author).catch(() => tell("Not kept. See below what to do."))}
          />
        ) : (
          <output>{told}</output>
        )}
      </div>
    </main>
  );
}

const nextIssue = (line: LineView, paper: LinePaperName): number =>
  Math.max(0, ...line.papers.filter((one) => one.paper === paper).map(({ issue }) => issue)) + 1;

/** Why the lot of this line was called back, where it was. */
function recalledBecause(register: Register, line: LineView): string | undefined {
  const key = lotKey(valueIn(line.said.lotNumber) ?? "");
  if (key === "") return undefined;
  return [...register.histories.values()]
    .filter(({ subject }) => subject.startsWith("lot:"))
    .map(lotView)
    .find(({ lotNumber }) => lotKey(lotNumber) === key)?.recalled;
}
