import type { ReactNode } from "react";
import type { Figure } from "../../figure/index.ts";

/** A plate with its caption, and its table one press away. The drawing is our own text, with every word escaped. */
export function Drawing({
  figure,
  plate,
  caption,
}: {
  readonly figure: Figure;
  readonly plate: string;
  readonly caption: string;
}): ReactNode {
  return (
    <figure>
      <div className="drawing" dangerouslySetInnerHTML={{ __html: figure.svg }} />
      <figcaption>
        {plate} {figure.sentence} {caption}
      </figcaption>
      <details className="numbers">
        <summary>The numbers of this plate</summary>
        <table>
          <thead>
            <tr>
              {figure.table.columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {figure.table.rows.map((row) => (
              <tr key={row.join("|")}>
                {row.map((cell, index) => (
                  <td key={figure.table.columns[index]}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}
