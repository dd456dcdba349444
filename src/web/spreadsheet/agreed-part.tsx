import type { ReactNode } from "react";
import { lineCount, type AuditTable } from "../../audit/index.ts";
import { numberOf } from "../../language/index.ts";
import type { AgreedTable } from "./agreed-table.ts";
import { saveFile } from "./save-file.ts";

/** The lines a person agreed to, and the files they may be kept in. */
export function AgreedPart({
  agreed,
  known,
}: {
  readonly agreed: AgreedTable;
  /** To know the rows again next month; none when the page was opened afresh. */
  readonly known: Blob | undefined;
}): ReactNode {
  return (
    <section className="agreed" aria-label="Agreed lines">
      <p className="headline" data-import="agreed">
        {numberOf(lineCount(agreed.table), "line")} agreed by {agreed.agreedBy}.
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
          onClick={() => saveFile("lines.json", tableInParts(agreed.table), "application/json")}
        >
          Save the line table, JSON
        </button>
        {known === undefined ? null : (
          <button
            type="button"
            data-import="keep"
            onClick={() => saveFile("known-lines.json", known, "application/json")}
          >
            Save to know the rows again
          </button>
        )}
      </p>
      {known === undefined ? null : (
        <p className="soft">The last one holds patient numbers. Keep it as you keep the spreadsheet.</p>
      )}
    </section>
  );
}

const LINES_OF_PART = 5_000;

/** A table as JSON in parts: a million lines are more than one text can hold. */
function tableInParts({ lines, ...rest }: AuditTable): readonly string[] {
  const parts = [`${JSON.stringify({ ...rest }).replace(/}$/, "")},"lines":[\n`];
  for (let from = 0; from < lines.length; from += LINES_OF_PART) {
    const some = lines.slice(from, from + LINES_OF_PART).map((line) => JSON.stringify(line));
    parts.push(`${from === 0 ? "" : ",\n"}${some.join(",\n")}`);
  }
  return [...parts, "\n]}\n"];
}
