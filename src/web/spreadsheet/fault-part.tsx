import { useState, type ReactNode } from "react";
import { numberOf, rowFaultSentences, sayBecomes, sayListed, sayWards } from "../../language/index.ts";
import type { RowFaultCode } from "../../spreadsheet/index.ts";
import type { SeenPreview } from "./intake.ts";

const MOST_SHOWN = 500;
const EVERY_KIND = "every kind";

/** What the reading found: rows, what becomes of them, how many faults of each kind, and the first of each by its row. */
export function FaultPart({
  preview,
  busy,
  save,
}: {
  readonly preview: Extract<SeenPreview, { readonly kind: "preview" }>;
  readonly busy: boolean;
  readonly save: () => void;
}): ReactNode {
  const { rowsRead, rowsLeftOut, newLines, sameAsBefore, changedLines, changed, faults, counts, wards } = preview;
  const [kind, setKind] = useState<RowFaultCode | typeof EVERY_KIND>(EVERY_KIND);
  const kinds = [...counts].sort(([, a], [, b]) => a - b);
  const all = kinds.reduce((sum, [, count]) => sum + count, 0);
  const shown = faults.filter(({ code }) => kind === EVERY_KIND || code === kind).slice(0, MOST_SHOWN);
  const ofKind = kind === EVERY_KIND ? all : (counts.get(kind) ?? 0);
  const noNumber = counts.get("no patient") ?? 0;
  return (
    <section aria-label="What was found">
      <h2>What was found</h2>
      <p className="headline" data-import="found">
        {numberOf(rowsRead, "row")} read, {rowsLeftOut.toLocaleString("en-GB")} left out,{" "}
        {numberOf(newLines, "new line")}.
      </p>
      {sameAsBefore + changedLines > 0 ? (
        <p>
          {sameAsBefore} are as before, {changedLines} changed
          {changedLines > 0
            ? `: rows ${changed
                .slice(0, MOST_ROWS_NAMED)
                .map(({ row }) => row)
                .join(", ")}${changedLines > MOST_ROWS_NAMED ? " and more" : ""}`
            : ""}
          .
        </p>
      ) : null}
      {noNumber > 0 ? (
        <p data-import="no-number">
          {numberOf(noNumber, "row")} without a number. Is the one above theirs? Say so at its column.
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
            {kinds.map(([code, count]) => (
              <li key={code}>
                {count.toLocaleString("en-GB")} × {rowFaultSentences[code]}
              </li>
            ))}
          </ul>
          <p>
            {numberOf(all, "fault")}.{" "}
            <button type="button" data-import="faults" disabled={busy} onClick={save}>
              Save every fault as CSV
            </button>
          </p>
          <label className="ask">
            Show
            <select
              data-import="kind"
              value={kind}
              onChange={({ target }) => setKind(kinds.find(([code]) => code === target.value)?.[0] ?? EVERY_KIND)}
            >
              <option value={EVERY_KIND}>
                {all.toLocaleString("en-GB")} × {EVERY_KIND}
              </option>
              {kinds.map(([code, count]) => (
                <option key={code} value={code}>
                  {count.toLocaleString("en-GB")} × {rowFaultSentences[code]}
                </option>
              ))}
            </select>
          </label>
          <p className="soft" data-import="listed">
            {sayListed(shown.length, ofKind)}
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
                {shown.map(({ row, column, code, found, against }) => (
                  <tr key={`${row} ${column} ${code} ${found} ${against}`} data-fault={code}>
                    <td>{row}</td>
                    <td>{column}</td>
                    <td>{rowFaultSentences[code]}</td>
                    <td>
                      {found}
                      {against === "" ? "" : ` (against ${against})`}
                    </td>
                    <td>{sayBecomes(code)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </>
      )}
    </section>
  );
}

const MOST_ROWS_NAMED = 200;
