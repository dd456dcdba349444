import { useState, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { peoplePort } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

type Page = Extract<Awaited<ReturnType<typeof peoplePort.trail>>, { readonly kind: "answer" }>["value"];

/** The trail from its start, a page at a press; reading it is itself a line of it. */
export function Trail(): ReactNode {
  const [page, setPage] = useState<Page>({ rows: [], upTo: 0 });
  const { ask, told, busy } = useAsking();
  return (
    <section>
      <h2>{peopleWords.trail}</h2>
      {page.rows.length > 0 ? (
        <table data-people="trail">
          <thead>
            <tr>
              {peopleWords.trailColumns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {page.rows.map(({ position, at, account, what, subject, detail }) => (
              <tr key={position}>
                {[at.slice(0, 16).replace("T", " "), account, what, subject, detail].map((cell, column) => {
                  const name = peopleWords.trailColumns[column];
                  return (
                    <td key={name} data-name={name}>
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
