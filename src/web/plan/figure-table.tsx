import type { ReactNode } from "react";
import type { Figure } from "../../figure/index.ts";

/** The numbers of a figure, its first column naming the row. */
export function FigureTable({ table }: { readonly table: Figure["table"] }): ReactNode {
  return (
    <table>
      <thead>
        <tr>
          {table.columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {table.rows.map((row) => (
          <tr key={row.join("|")}>
            {row.map((cell, index) =>
              index === 0 ? (
                <th key={table.columns[index]} scope="row">
                  {cell}
                </th>
              ) : (
                <td key={table.columns[index]}>{cell}</td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
