import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import { readLineTable, type Fault } from "../../contract/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { countWords, sayFault } from "../../language/index.ts";
import { agreedTable } from "../spreadsheet/agreed-table.ts";
import type { CountSource } from "./count-table.ts";

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
  const agreed = agreedTable();
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const reading = readLineTable(await file.text(), today);
    setRefused(reading.kind === "faults" ? { name: file.name, faults: reading.faults } : undefined);
    if (reading.kind === "table") open({ kind: "file", name: file.name, table: reading.table });
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
