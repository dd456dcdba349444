import { useRef, useState, type ReactNode } from "react";
import { packedOfSent, tableOf } from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayRefusal } from "../../language/index.ts";
import { sheetLimitsFrom, type LocalPolicy } from "../../policy/index.ts";
import {
  matchingQuestions,
  readKnownLines,
  type KnownLines,
  type Refusal,
  type SheetChoice,
  type WardName,
} from "../../spreadsheet/index.ts";
import { AgreePart } from "./agree-part.tsx";
import { suggestedAlike } from "./answered-alike.ts";
import { AgreedPart } from "./agreed-part.tsx";
import { agreedTable, keepAgreedTable, type AgreedTable } from "./agreed-table.ts";
import { ColumnsPart, type OpenColumns } from "./columns-part.tsx";
import { FaultPart } from "./fault-part.tsx";
import { FilePart } from "./file-part.tsx";
import { FromRecord } from "./from-record.tsx";
import { KeptFile } from "./kept-file.tsx";
import type { HowToRead, Intake, SeenPreview } from "./intake.ts";
import { ReadingPart } from "./reading-part.tsx";
import { saveFile } from "./save-file.ts";
import { SheetsPart } from "./sheets-part.tsx";
import { WardPart } from "./ward-part.tsx";
import "./import.css";

const UNSIGNED = "on this page";

interface Open extends OpenColumns {
  readonly intake: Intake;
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
  const [progress, setProgress] = useState<{ readonly share: number; readonly said: string }>();
  const [opening, setOpening] = useState<number>();
  const [busy, setBusy] = useState(false);
  const [preview, setPreview] = useState<Extract<SeenPreview, { readonly kind: "preview" }>>();
  const [known, setKnown] = useState<KnownLines>(new Map());
  const [agreed, setAgreed] = useState<AgreedTable | undefined>(agreedTable);
  const [keep, setKeep] = useState<Blob>();
  const [wardsAnswered, setWardsAnswered] = useState(false);
  const [carryOffered, setCarryOffered] = useState(false);
  const limits = sheetLimitsFrom(policy.table);
  const running = useRef<Intake>(undefined);

  /** One thing at a time; what was not foreseen is said too, never silent. */
  const work = (task: () => Promise<void>) => {
    setBusy(true);
    setTold("");
    task()
      .catch(() => setTold("The file could not be read on this device. Save it again as CSV UTF-8."))
      .finally(() => {
        setBusy(false);
        setProgress(undefined);
      });
  };

  const openFile = (file: File, sheetName?: string) =>
    work(async () => {
      setOpen(undefined);
      setChoice(undefined);
      setPreview(undefined);
      setWardsAnswered(false);
      setCarryOffered(false);
      running.current?.close();
      const intake = await (await import("./worker-intake.ts")).workerIntake();
      running.current = intake;
      setOpening(0);
      const opened = await intake.open(file, sheetName, setOpening).finally(() => setOpening(undefined));
      if (opened.kind === "refused") setTold(sayRefusal(opened.refusal));
      else if (opened.kind === "choose sheet") setChoice({ file, sheets: opened.sheets });
      else setOpen({ intake, sheet: opened, ...suggestedAlike(opened, today), confirmed: new Set() });
    });

  const change = (next: Partial<OpenColumns>) => {
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
    limits,
    today,
    known,
  });

  const shows = (said: (count: number) => string) => (share: number, count: number) =>
    setProgress({ share, said: said(count) });
  const rowsSaid = shows((rows) => `${rows} rows`);
  /** What was read is gone when its thread was ended. */
  const refuse = (refusal: Refusal) => {
    setTold(sayRefusal(refusal));
    if (refusal.code === "cancelled") setPreview(undefined);
  };

  const read = (now: Open) =>
    work(async () => {
      rowsSaid(0, 0);
      const answer = await now.intake.preview(howOf(now, UNSIGNED), rowsSaid);
      if (answer.kind === "refused") refuse(answer.refusal);
      else {
        setPreview(answer);
        if (answer.counts.has("no patient")) setCarryOffered(true);
      }
    });

  /** What a person said of the wards is kept in the matching, and the rows are read as it says. */
  const mergeWards = (now: Open, wards: readonly WardName[]) => {
    const { wards: _before, ...matching } = now.matching;
    const next = { ...now, matching: wards.length > 0 ? { ...matching, wards } : matching };
    change({ matching: next.matching });
    setWardsAnswered(true);
    read(next);
  };

  const saveFaults = (now: Open) =>
    work(async () => {
      const list = await now.intake.faults(
        howOf(now, UNSIGNED),
        shows((faults) => `${faults} faults`),
      );
      if (list.kind === "refused") refuse(list.refusal);
      else saveFile("faults.csv", list.csv, "text/csv");
    });

  const take = (now: Open, by: string) =>
    work(async () => {
      const answer = await now.intake.take(
        howOf(now, by),
        by,
        shows((lines) => `${lines} lines`),
      );
      if (answer.kind === "refused") refuse(answer.refusal);
      else if (answer.kind === "questions") setTold("A question is still open. Answer it above.");
      else {
        const table: AgreedTable = {
          fileName: now.sheet.fileName,
          agreedBy: by,
          table: tableOf(packedOfSent(answer.lines)),
          csv: answer.csv,
        };
        keepAgreedTable(table);
        setAgreed(table);
        setKeep(answer.known);
        setPreview(undefined);
        setOpen({ ...now, matching: { ...now.matching, confirmedBy: by } });
        globalThis.scrollTo(0, 0);
      }
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
        <ColumnsPart
          open={open}
          today={today}
          limits={limits}
          questions={questions}
          unticked={unticked}
          offersCarry={carryOffered}
          tell={setTold}
          change={change}
        >
          <p className="import-presses">
            <button type="button" data-import="read" disabled={!ready || busy} onClick={() => read(open)}>
              Read every row
            </button>
            {progress ? (
              <ReadingPart share={progress.share} said={progress.said} stop={() => running.current?.cancel()} />
            ) : null}
          </p>
        </ColumnsPart>
      ) : null}
      {open && preview ? (
        <>
          <FaultPart preview={preview} busy={busy} save={() => saveFaults(open)} />
          <WardPart
            spellings={preview.spellings}
            kept={open.matching.wards}
            busy={busy}
            returned={wardsAnswered}
            merge={(wards) => mergeWards(open, wards)}
          />
          <AgreePart today={today} agree={(by) => take(open, by)} />
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
