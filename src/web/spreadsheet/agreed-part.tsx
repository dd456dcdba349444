import type { ReactNode } from "react";
import type { AgreedTable } from "./agreed-table.ts";
import { saveFile } from "./save-file.ts";

/** The lines a person agreed to, and the files they may be kept in. */
export function AgreedPart({
  agreed,
  known,
}: {
  readonly agreed: AgreedTable;
  /** To know the rows again next month; empty when the page was opened afresh. */
  readonly known: string;
}): ReactNode {
  return (
    <section className="agreed" aria-label="Agreed lines">
      <p className="headline" data-import="agreed">
        {agreed.table.lines.length} lines agreed by {agreed.agreedBy}.
      </p>
      <p>From {agreed.fileName}. Kept while this page is open. Closing it forgets them.</p>
      <p className="import-presses">
        {/* an anchor: a link of the router would put the question before the hash, where it stays */}
        <a href="#/count?source=agreed" data-import="count">
          Count these lines
        </a>
        <button type="button" data-import="table" onClick={() => saveFile("lines.csv", agreed.csv, "text/csv")}>
          Save the line table, CSV
        </button>
        <button
          type="button"
          data-import="table-json"
          onClick={() => saveFile("lines.json", `${JSON.stringify(agreed.table, null, 1)}\n`, "application/json")}
        >
          Save the line table, JSON
        </button>
        {known === "" ? null : (
          <button
            type="button"
            data-import="keep"
            onClick={() => saveFile("known-lines.json", known, "application/json")}
          >
            Save to know the rows again
          </button>
        )}
      </p>
      {known === "" ? null : (
        <p className="soft">The last one holds patient numbers. Keep it as you keep the spreadsheet.</p>
      )}
    </section>
  );
}
