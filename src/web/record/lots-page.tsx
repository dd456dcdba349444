import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import { civilDateOf, midnightsBetween, parseCivilDate } from "../../core/calendar/index.ts";
import { sayDay, sayDistance } from "../../language/index.ts";
import { leftOf, recall, type LineView } from "../../register/index.ts";
import { LineItem } from "./record-door.tsx";
import { idOf, lineOf, lotOf, patientFor, useAll, useRecord } from "./record-context.tsx";

/** What is on the shelf, what is near its date, and whom a recalled lot reached. */
export function LotsPage(): ReactNode {
  const { register, policy } = useRecord();
  const nearDays = policy.table["count.lot-expiry-days"].value;
  const lots = useAll("lot", lotOf);
  const lines = useAll("line", lineOf);
  const today = civilDateOf(register.now());
  const [asked, setAsked] = useState("");
  const sorted = [...lots].sort((a, b) => (a.expiresOn < b.expiresOn ? -1 : 1));
  return (
    <main className="door-page">
      <h1>Lots</h1>
      <p className="presses">
        <Link href="/new/lot">Receive a lot</Link>
      </p>
      <table className="round">
        <thead>
          <tr>
            {["Lot", "Catheter", "Left", "Expires", "Recall"].map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sorted.map((lot) => {
            const expires = parseCivilDate(lot.expiresOn);
            const soon = expires && midnightsBetween(today, expires) <= nearDays;
            return (
              <tr key={lot.subject}>
                <th scope="row">{lot.lotNumber}</th>
                <td>{lot.catheter}</td>
                <td>{leftOf(lot, lines)}</td>
                <td>
                  {expires ? sayDay(expires) : "not known"}
                  {expires && soon ? <b>, {sayDistance(expires, today)}</b> : null}
                </td>
                <td>
                  {lot.recalled === undefined ? (
                    <Link href={`/write/lot/${idOf(lot.subject)}/LotRecalled`}>Recall</Link>
                  ) : (
                    <b>recalled: {lot.recalled}</b>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <label className="search">
        Whom did a lot reach?
        <input
          type="search"
          value={asked}
          data-search="lot"
          autoComplete="off"
          onChange={({ target }) => setAsked(target.value)}
        />
      </label>
      {asked.trim() === "" ? null : <Reached lot={asked} lines={lines} />}
    </main>
  );
}

function Reached({ lot, lines }: { readonly lot: string; readonly lines: readonly LineView[] }): ReactNode {
  const { register } = useRecord();
  const found = recall(lot, lines);
  const groups = [
    ["Still in: reach today", found.stillIn],
    ["Nobody knows if it is in: reach too", found.unknownEnd],
    ["With another service: tell them", found.handedOn],
    ["Out: write to them", found.out],
    ["Lot never written: any of these may be one", found.lotMissing],
  ] as const;
  return (
    <>
      {groups.map(([title, list]) =>
        list.length === 0 ? null : (
          <section key={title} data-group={title}>
            <h2>
              {title} ({list.length})
            </h2>
            <ul className="people">
              {list.map((line) => (
                <LineItem key={line.subject} line={line} patient={patientFor(register, line.patient)} />
              ))}
            </ul>
          </section>
        ),
      )}
    </>
  );
}
