import { useEffect, useRef, useState, type ReactNode } from "react";
import { Link } from "wouter";
import type { Fault } from "../../contract/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { countWords, sayFault } from "../../language/index.ts";
import { agreedTable } from "../spreadsheet/agreed-table.ts";
import { ReadingPart } from "../spreadsheet/reading-part.tsx";
import type { CountSource } from "./count-table.ts";
import { readLinesOf, type RunningRead } from "./read-lines.ts";

/** A line table opened from a file: read here, sent nowhere, kept nowhere. Every fault is listed. */
export function FileEntry({
  source,
  open,
  today,
}: {
  readonly source: CountSource;
  readonly open: (file: CountSource | undefined) => void;
  readonly today: Moment;
}): ReactNode {
  const [refused, setRefused] = useState<{ readonly name: string; readonly faults: readonly Fault[] }>();
  const [share, setShare] = useState<number>();
  const [told, setTold] = useState("");
  const running = useRef<RunningRead>(undefined);
  useEffect(() => () => running.current?.stop(), []);
  const agreed = agreedTable();
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    running.current?.stop();
    // the reading that ends says nothing of the one that begins
    running.current = undefined;
    setRefused(undefined);
    setTold("");
    setShare(0);
    try {
      const run = await readLinesOf(file, today, setShare);
      running.current = run;
      const read = await run.answer;
      if (running.current !== run) return;
      if (read.kind === "faults") setRefused({ name: file.name, faults: read.faults });
      else if (read.kind === "table") open({ kind: "file", name: file.name, table: read.table });
      else setTold(countWords.readingStopped);
    } catch {
      setTold(countWords.notRead);
    }
    setShare(undefined);
  };
  return (
    <div className="count-source">
      <p>
        <b>{source.name}</b>
        {source.kind === "file" ? ". Read here, sent nowhere, kept nowhere." : ""}
      </p>
      <label className="file-press">
        {countWords.openFile}
        <input
          type="file"
          accept=".csv,text/csv"
          data-open="lines"
          onChange={({ target }) => {
            const file = target.files?.[0];
            // the same file, mended, can be opened again
            void take(file).finally(() => {
              target.value = "";
            });
          }}
        />
      </label>
      <Link href="/import">{countWords.toImport}</Link>
      {agreed && source.table !== agreed.table ? (
        <button
          type="button"
          data-open="agreed"
          onClick={() => open({ kind: "file", name: agreed.fileName, table: agreed.table })}
        >
          {countWords.countAgreed(agreed.fileName, agreed.agreedBy)}
        </button>
      ) : null}
      {source.kind === "file" ? (
        <button type="button" className="quiet" onClick={() => open(undefined)}>
          {countWords.closeFile}
        </button>
      ) : null}
      {share === undefined ? null : (
        <ReadingPart share={share} said={countWords.readingFile} stop={() => running.current?.stop()} />
      )}
      {told === "" ? null : (
        <p role="alert" data-told>
          {told}
        </p>
      )}
      {refused ? (
        <div role="alert" className="refused" data-faults={refused.faults.length}>
          <p>{countWords.faults(refused.faults.length, refused.name)}</p>
          <ol>
            {refused.faults.map((fault) => (
              <li key={`${fault.path} ${fault.code} ${fault.rule}`}>{sayFault(fault)}</li>
            ))}
          </ol>
        </div>
      ) : null}
    </div>
  );
}
