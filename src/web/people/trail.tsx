import { useState, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { peoplePort } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

type Page = Extract<Awaited<ReturnType<typeof peoplePort.trail>>, { readonly kind: "answer" }>["value"];

// its roles are named: on a narrow screen the rows are laid out as blocks, and would be no table to a screen reader
/** The trail from its start, a page at a press; reading it is itself a line of it. */
export function Trail(): ReactNode {
  const [page, setPage] = useState<Page>({ rows: [], upTo: 0 });
  const { ask, told, busy } = useAsking();
  return (
    <section>
      <h2>{peopleWords.trail}</h2>
      {page.rows.length > 0 ? (
        <table data-people="trail" role="table">
          <thead role="rowgroup">
            <tr role="row">
              {peopleWords.trailColumns.map((column) => (
                <th key={column} role="columnheader" scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody role="rowgroup">
            {page.rows.map(({ position, at, account, what, subject, detail }) => (
              <tr key={position} role="row">
                {[at.slice(0, 16).replace("T", " "), account, what, subject, detail].map((cell, column) => {
                  const name = peopleWords.trailColumns[column];
                  return (
                    <td key={name} role="cell" data-name={name}>
                      {cell}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      <button
        type="button"
        disabled={busy}
        data-people="read-on"
        onClick={() =>
          ask(peoplePort.trail(page.upTo), (next) => setPage({ rows: [...page.rows, ...next.rows], upTo: next.upTo }))
        }
      >
        {peopleWords.readOn}
      </button>
      <Told words={told} />
    </section>
  );
}
