import { useRef, useState, type ReactNode } from "react";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayHidden, sayMatchingQuestion, sayRefusal } from "../../language/index.ts";
import { sheetLimitsFrom, type LocalPolicy } from "../../policy/index.ts";
import {
  matchingQuestions,
  readKnownLines,
  readMatching,
  type KnownLines,
  type Matching,
  type SheetChoice,
  type Suggestion,
} from "../../spreadsheet/index.ts";
import { AgreePart } from "./agree-part.tsx";
import { answeredAlike, suggestedAlike } from "./answered-alike.ts";
import { AgreedPart } from "./agreed-part.tsx";
import { agreedTable, keepAgreedTable, type AgreedTable } from "./agreed-table.ts";
import { ColumnRow } from "./column-row.tsx";
import { FaultPart } from "./fault-part.tsx";
import { FilePart } from "./file-part.tsx";
import { FromRecord } from "./from-record.tsx";
import { KeptFile } from "./kept-file.tsx";
import { NoColumn } from "./no-column.tsx";
import type { HowToRead, Intake, SeenPreview, SeenSheet } from "./intake.ts";
import { ReadingPart } from "./reading-part.tsx";
import { saveFile } from "./save-file.ts";
import { SheetsPart } from "./sheets-part.tsx";
import "./import.css";

const UNSIGNED = "on this page";

interface Open {
  readonly intake: Intake;
  readonly sheet: SeenSheet;
  readonly matching: Matching;
  readonly suggestions: readonly Suggestion[];
  readonly confirmed: ReadonlySet<string>;
}
type Choice = { readonly file: File; readonly sheets: readonly SheetChoice[] };

const todayHere = (): CivilDate => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((part) => String(part).padStart(2, "0"))
    .join("-") as CivilDate;
};

/** A service's own spreadsheet: columns confirmed, faults listed, and nothing taken before a person agrees. */
export function ImportPage({ policy }: { readonly policy: LocalPolicy }): ReactNode {
  const [today] = useState(todayHere);
  const [open, setOpen] = useState<Open>();
  const [choice, setChoice] = useState<Choice>();
  const [told, setTold] = useState("");
  const [progress, setProgress] = useState<{ readonly share: number; readonly rowsRead: number }>();
  const [opening, setOpening] = useState<number>();
  const [busy, setBusy] = useState(false);
  const [preview, setPreview] = useState<Extract<SeenPreview, { readonly kind: "preview" }>>();
  const [known, setKnown] = useState<KnownLines>(new Map());
  const [agreed, setAgreed] = useState<AgreedTable | undefined>(agreedTable);
  const [keep, setKeep] = useState("");
  const running = useRef<Intake>(undefined);

  /** One thing at a time; what was not foreseen is said too, never silent. */
  const work = (task: () => Promise<void>) => {
    setBusy(true);
    setTold("");
    task()
      .catch(() => setTold("The file could not be read on this device. Save it again as CSV UTF-8."))
      .finally(() => setBusy(false));
  };

  const openFile = (file: File, sheetName?: string) =>
    work(async () => {
      setOpen(undefined);
      setChoice(undefined);
      setPreview(undefined);
      running.current?.close();
      const intake = await (await import("./worker-intake.ts")).workerIntake();
      running.current = intake;
      setOpening(0);
      const opened = await intake.open(file, sheetName, setOpening).finally(() => setOpening(undefined));
      if (opened.kind === "refused") setTold(sayRefusal(opened.refusal));
      else if (opened.kind === "choose sheet") setChoice({ file, sheets: opened.sheets });
      else setOpen({ intake, sheet: opened, ...suggestedAlike(opened, today), confirmed: new Set() });
    });

  const change = (next: Partial<Open>) => {
    setPreview(undefined);
    setOpen((now) => now && { ...now, ...next });
  };

  const questions = open
    ? matchingQuestions(open.matching, open.sheet).filter(({ code }) => code !== "not confirmed")
    : [];
  const unticked = open ? open.sheet.headers.filter((header) => !open.confirmed.has(header)) : [];
  const ready = open !== undefined && questions.length === 0 && unticked.length === 0;
  const howOf = ({ matching }: Open, by: string): HowToRead => ({
    matching: { ...matching, confirmedBy: by },
    limits: sheetLimitsFrom(policy.table),
    today,
    known,
  });

  return (
    <main className="import">
      <h1>Import a spreadsheet</h1>
      <p className="lead">Your own list of lines becomes a table that Count reads. Nothing leaves this device.</p>
      {agreed ? <AgreedPart agreed={agreed} known={keep} /> : null}
      <FilePart take={openFile} busy={busy} />
      <KeptFile
        label="Known lines of an earlier import (JSON)"
        name="known"
        take={(text) => {
          const lines = readKnownLines(text);
          if (lines) setKnown((now) => new Map([...now, ...lines]));
          setTold(lines ? `${lines.size} lines are known.` : "This is no file of known lines. Choose another.");
        }}
      />
      <FromRecord
        policyVersion={policy.version}
        take={(lines) => {
          setKnown((now) => new Map([...now, ...lines]));
          setPreview(undefined);
        }}
      />
      {opening === undefined ? null : (
        <p className="import-presses">
          <ReadingPart share={opening} said="Opening the file" stop={() => running.current?.cancel()} />
        </p>
      )}
      {told ? (
        <p className="told" role="alert" data-import="told">
          {told}
        </p>
      ) : null}
      {choice ? <SheetsPart sheets={choice.sheets} take={(name) => openFile(choice.file, name)} /> : null}
      {open ? (
        <section aria-label="Columns">
          <h2>
            Columns of {open.sheet.fileName}
            {open.sheet.sheetName ? `, ${open.sheet.sheetName}` : ""}
          </h2>
          <p>
            Header in row {open.sheet.headerRow}.{" "}
            {open.sheet.encoding
              ? `Read as ${open.sheet.encoding}. Look at: ${open.sheet.encodingSample.join(", ") || "plain letters"}.`
              : ""}
          </p>
          {sayHidden(open.sheet).map((said) => (
            <p key={said} data-import="hidden">
              {said}
            </p>
          ))}
          <KeptFile
            label="Matching kept before (JSON)"
            name="matching"
            take={(text) => {
              const matching = readMatching(text);
              if (!matching) {
                setTold("This is no matching. Choose one that was saved here.");
                return;
              }
              setTold(`The matching of ${matching.confirmedBy || "nobody"} is used.`);
              change({
                matching,
                confirmed: new Set(matching.confirmedBy === "" ? [] : matching.columns.map(({ header }) => header)),
              });
            }}
          />
          <ul className="sheet-columns">
            {open.matching.columns.map((column) => {
              const at = open.sheet.headers.indexOf(column.header);
              return (
                <ColumnRow
                  key={column.header}
                  column={column}
                  suggestion={open.suggestions.find(
                    ({ header, field }) => header === column.header && field === column.field,
                  )}
                  sample={open.sheet.sample.map(({ cells }) => (cells[at] ?? "").slice(0, 24))}
                  questions={questions.flatMap((one) =>
                    "header" in one && one.header === column.header ? [one.code] : [],
                  )}
                  confirmed={open.confirmed.has(column.header)}
                  set={(next) =>
                    change({
                      matching: answeredAlike(
                        open.matching,
                        {
                          ...open.matching,
                          columns: open.matching.columns.map((one) => (one.header === next.header ? next : one)),
                        },
                        open.sheet,
                        today,
                      ),
                      confirmed: new Set([...open.confirmed].filter((header) => header !== next.header)),
                    })
                  }
                  confirm={(on) =>
                    change({
                      confirmed: new Set(
                        on
                          ? [...open.confirmed, column.header]
                          : [...open.confirmed].filter((header) => header !== column.header),
                      ),
                    })
                  }
                />
              );
            })}
          </ul>
          {questions.length > 0 ? (
            <ul className="plain questions" data-import="questions">
              {questions.map((one) => (
                <li key={sayMatchingQuestion(one)}>{sayMatchingQuestion(one)}</li>
              ))}
            </ul>
          ) : null}
          {questions.length === 0 && unticked.length > 0 ? (
            <p data-import="unticked">Still to confirm: {unticked.join(", ")}.</p>
          ) : null}
          <NoColumn matching={open.matching} />
          <p className="import-presses">
            <button
              type="button"
              data-import="read"
              disabled={!ready || busy}
              onClick={() =>
                work(async () => {
                  setProgress({ share: 0, rowsRead: 0 });
                  const answer = await open.intake.preview(howOf(open, UNSIGNED), (share, rowsRead) =>
                    setProgress({ share, rowsRead }),
                  );
                  setProgress(undefined);
                  if (answer.kind === "refused") setTold(sayRefusal(answer.refusal));
                  else setPreview(answer);
                })
              }
            >
              Read every row
            </button>
            {progress ? (
              <ReadingPart
                share={progress.share}
                said={`${progress.rowsRead} rows`}
                stop={() => running.current?.cancel()}
              />
            ) : null}
          </p>
        </section>
      ) : null}
      {open && preview ? (
        <>
          <FaultPart preview={preview} />
          <AgreePart
            today={today}
            agree={(by) =>
              work(async () => {
                const answer = await open.intake.take(howOf(open, by), by);
                if (answer.kind === "refused") setTold(sayRefusal(answer.refusal));
                else if (answer.kind === "questions") setTold("A question is still open. Answer it above.");
                else {
                  const table: AgreedTable = {
                    fileName: open.sheet.fileName,
                    agreedBy: by,
                    table: { asOf: { precision: "date", date: today }, lines: answer.lines, referrals: [] },
                    csv: answer.csv,
                  };
                  keepAgreedTable(table);
                  setAgreed(table);
                  setKeep(answer.known);
                  setPreview(undefined);
                  setOpen({ ...open, matching: { ...open.matching, confirmedBy: by } });
                  globalThis.scrollTo(0, 0);
                }
              })
            }
          />
        </>
      ) : null}
      {open && ready ? (
        <p>
          <button
            type="button"
            className="quiet"
            data-import="save-matching"
            onClick={() => saveFile("matching.json", `${JSON.stringify(open.matching, null, 2)}\n`, "application/json")}
          >
            Save this matching for next month
          </button>
        </p>
      ) : null}
    </main>
  );
}
