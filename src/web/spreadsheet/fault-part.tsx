import type { ReactNode } from "react";
import { rowFaultSentences, sayWards } from "../../language/index.ts";
import { consequenceOf } from "../../spreadsheet/index.ts";
import type { SeenPreview } from "./intake.ts";
import { saveFile } from "./save-file.ts";

const MOST_SHOWN = 200;

/** What the reading found: rows, what becomes of them, and every fault by its row. */
export function FaultPart({
  preview,
}: {
  readonly preview: Extract<SeenPreview, { readonly kind: "preview" }>;
}): ReactNode {
  const { rowsRead, rowsLeftOut, newLines, sameAsBefore, changed, faults, counts, faultsCsv, wards } = preview;
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  return (
    <section aria-label="What was found">
      <h2>What was found</h2>
      <p className="headline" data-import="found">
        {rowsRead} rows read, {rowsLeftOut} left out, {newLines} new lines.
      </p>
      {sameAsBefore + changed.length > 0 ? (
        <p>
          {sameAsBefore} are as before, {changed.length} changed
          {changed.length > 0
            ? `: rows ${changed
                .slice(0, MOST_SHOWN)
                .map(({ row }) => row)
                .join(", ")}`
            : ""}
          .
        </p>
      ) : null}
      {sayWards(wards).map((said) => (
        <p key={said} data-import="wards">
          {said}
        </p>
      ))}
      {all === 0 ? (
        <p>No fault was found.</p>
      ) : (
        <>
          <ul className="plain" data-import="kinds">
            {[...counts]
              .sort(([, a], [, b]) => a - b)
              .map(([code, count]) => (
                <li key={code}>
                  {count} × {rowFaultSentences[code]}
                </li>
              ))}
          </ul>
          <p>
            {all} faults.{" "}
            <button
              type="button"
              data-import="faults"
              onClick={() => saveFile("faults.csv", `\uFEFF${faultsCsv}`, "text/csv")}
            >
              Save every fault as CSV
            </button>
          </p>
          {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- what scrolls must be reached by key */}
          <section className="fault-table" aria-label="Faults by row" tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Row</th>
                  <th scope="col">Column</th>
                  <th scope="col">Rule and what to do</th>
                  <th scope="col">Found</th>
                  <th scope="col">Becomes</th>
                </tr>
              </thead>
              <tbody>
                {faults.slice(0, MOST_SHOWN).map(({ row, column, code, found, against }) => (
                  <tr key={`${row} ${column} ${code} ${found} ${against}`} data-fault={code}>
                    <td>{row}</td>
                    <td>{column}</td>
                    <td>{rowFaultSentences[code]}</td>
                    <td>
                      {found}
                      {against === "" ? "" : ` (against ${against})`}
                    </td>
                    <td>{consequenceOf(code)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
          {all > MOST_SHOWN ? <p className="soft">The first {MOST_SHOWN} are shown; the CSV holds all.</p> : null}
        </>
      )}
    </section>
  );
}
