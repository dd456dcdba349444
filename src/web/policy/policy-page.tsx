import { useState, type ReactNode } from "react";
import { readInfusateCsv } from "../../contract/index.ts";
import type { Infusate } from "../../core/infusate/index.ts";
import type { PolicyRow } from "../../core/reason/index.ts";
import { sayFault } from "../../language/index.ts";
import { rowFits, type LocalPolicy, type PolicyKey } from "../../policy/index.ts";

/** The one table of every limit: its value, what it decides, where it comes from, who set it here and when. */
export function PolicyPage({
  policy,
  set,
  drugs,
  takeDrugs,
}: {
  readonly policy: LocalPolicy;
  /** The hospital's own drugs, empty while only the starter list stands. */
  readonly drugs: readonly Infusate[];
  readonly takeDrugs: (csv: string, list: readonly Infusate[]) => void;
  readonly set: (key: PolicyKey, row: PolicyRow) => void;
}): ReactNode {
  const [owner, setOwner] = useState("");
  const [faults, setFaults] = useState<readonly string[]>([]);
  const [imported, setImported] = useState<string>();
  const rows = Object.entries(policy.table) as [PolicyKey, PolicyRow][];
  const change = (key: PolicyKey, row: PolicyRow, text: string) => {
    const value = Number(text.replace(",", "."));
    const [least, most] = row.range ?? [-Infinity, Infinity];
    if (text.trim() === "" || !Number.isFinite(value) || value < least || value > most || owner.trim() === "")
      return false;
    set(key, { ...row, value, howKnown: "local", owner: owner.trim(), date: new Date().toISOString().slice(0, 10) });
    return true;
  };
  const changeTo = (key: PolicyKey, row: PolicyRow, value: boolean | string) => {
    if (owner.trim() === "") return false;
    set(key, { ...row, value, howKnown: "local", owner: owner.trim(), date: new Date().toISOString().slice(0, 10) });
    return true;
  };
  return (
    <main className="policy">
      <h1>Local policy</h1>
      <p>
        Every limit the plan uses. Change one, and it reads as yours, with your name and today's date. Version{" "}
        {policy.version}.
      </p>
      <p>
        <label>
          Import a table:{" "}
          <input
            type="file"
            accept="application/json"
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              if (file) void file.text().then((text) => setImported(importRows(text, policy, set)));
            }}
          />
        </label>
      </p>
      <p>
        <label>
          Import your drug list (CSV):{" "}
          <input
            type="file"
            accept=".csv,text/csv"
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              if (file)
                void file.text().then((csv) => {
                  const reading = readInfusateCsv(csv);
                  if (reading.kind === "list") takeDrugs(csv, reading.infusates);
                  setFaults(reading.kind === "faults" ? reading.faults.map(sayFault) : []);
                });
            }}
          />
        </label>{" "}
        {drugs.length === 0
          ? "Only the starter list stands; most of it is from memory."
          : `Drugs of your own before the starter list: ${drugs.length}.`}
      </p>
      {faults.length > 0 ? (
        <output>
          Nothing was taken.
          <ul>
            {faults.map((fault) => (
              <li key={fault}>{fault}</li>
            ))}
          </ul>
        </output>
      ) : null}
      {imported ? <output>{imported}</output> : null}
      <p>
        <label>
          Who sets it:{" "}
          <input value={owner} onChange={(event) => setOwner(event.target.value)} placeholder="name and role" />
        </label>{" "}
        <a
          download="veinwright-policy.json"
          href={`data:application/json,${encodeURIComponent(JSON.stringify(policy, null, 2))}`}
        >
          Export as a file
        </a>
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">Decides</th>
            <th scope="col">Value</th>
            <th scope="col">How known</th>
            <th scope="col">Owner, date</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([key, row]) => (
            <tr key={key}>
              <td>{row.decides}</td>
              <td>
                {typeof row.value === "number" ? (
                  <Limit row={row} name={row.decides} change={(text) => change(key, row, text)} />
                ) : typeof row.value === "boolean" ? (
                  <InForce row={row} change={(value) => changeTo(key, row, value)} />
                ) : Array.isArray(row.value) ? (
                  row.value.map((value) => (typeof value === "number" ? Number(value.toFixed(3)) : value)).join(", ")
                ) : STRENGTHS.has(row.value) ? (
                  row.value
                ) : (
                  <Words row={row} change={(value) => changeTo(key, row, value)} />
                )}
              </td>
              <td>
                {row.howKnown}; {row.source}
                {row.place ? `, ${row.place}` : null}
                {row.others ? <span className="soft"> Others in print: {row.others.join("; ")}.</span> : null}
              </td>
              <td>
                {row.owner}, {row.date}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </main>
  );
}

/** Takes the rows of an exported table: all of them, or none when one is not a row of this release or does not fit. */
function importRows(text: string, policy: LocalPolicy, set: (key: PolicyKey, row: PolicyRow) => void): string {
  let rows: [string, unknown][];
  try {
    rows = Object.entries((JSON.parse(text) as { table: Record<string, unknown> }).table);
  } catch {
    return "This is not an exported policy table. Nothing was taken.";
  }
  const wrong = rows.filter(([key, row]) => !rowFits(key, row)).map(([key]) => key);
  if (rows.length === 0) return "This table is empty. Nothing was taken.";
  if (wrong.length > 0) return `Nothing was taken. These rows do not fit: ${wrong.join(", ")}.`;
  for (const [key, row] of rows as [PolicyKey, PolicyRow][]) {
    const { value, howKnown, owner, date } = row;
    set(key, { ...policy.table[key], value, howKnown, owner, date });
  }
  return `${rows.length} ${rows.length === 1 ? "row" : "rows"} taken.`;
}

function Limit({
  row,
  name,
  change,
}: {
  readonly row: PolicyRow;
  readonly name: string;
  readonly change: (text: string) => boolean;
}): ReactNode {
  const [text, setText] = useState<string>();
  const [refused, setRefused] = useState(false);
  return (
    <>
      <input
        aria-label={name}
        inputMode="decimal"
        value={text ?? String(Number((row.value as number).toFixed(4)))}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => {
          if (text === undefined) return;
          const kept = change(text);
          setRefused(!kept);
          if (kept) setText(undefined);
        }}
      />{" "}
      {row.unit}
      {refused ? (
        <p className="fault">
          Type who sets it, and a number{row.range ? ` from ${row.range[0]} to ${row.range[1]}` : ""}.
        </p>
      ) : null}
    </>
  );
}

/** How heavily a reason weighs; every other single word of the table is the hospital's to write. */
const STRENGTHS = new Set<unknown>(["bar", "strong", "weak"]);

/** Words of the hospital's own, such as a phone; they take a name as every limit does. */
function Words({ row, change }: { readonly row: PolicyRow; readonly change: (value: string) => boolean }): ReactNode {
  const [text, setText] = useState<string>();
  const [refused, setRefused] = useState(false);
  return (
    <>
      <input
        type="text"
        maxLength={60}
        aria-label={row.decides}
        value={text ?? String(row.value)}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => {
          if (text === undefined) return;
          const kept = change(text.trim());
          setRefused(!kept);
          if (kept) setText(undefined);
        }}
      />
      {refused ? <p className="fault">Say who sets it first.</p> : null}
    </>
  );
}

/** A rule in force or not; it takes a name to change it, as every limit does. */
function InForce({
  row,
  change,
}: {
  readonly row: PolicyRow;
  readonly change: (value: boolean) => boolean;
}): ReactNode {
  const [refused, setRefused] = useState(false);
  return (
    <>
      <label>
        <input
          type="checkbox"
          checked={row.value === true}
          aria-label={row.decides}
          onChange={(event) => setRefused(!change(event.target.checked))}
        />{" "}
        in force
      </label>
      {refused ? <p className="fault">Say who sets it first.</p> : null}
    </>
  );
}
