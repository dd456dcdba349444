import type { ReactNode } from "react";
import type { Figure } from "../../figure/index.ts";
import { FigureTable } from "./figure-table.tsx";

/** A plate with its caption, and its table one press away. The drawing is our own text, with every word escaped. */
export function Drawing({
  figure,
  plate,
  caption,
  press,
}: {
  readonly figure: Figure;
  readonly plate: string;
  readonly caption: string;
  /** Called with the vein entry, in cm, of the place pressed on the drawing. */
  readonly press?: (entryCm: number) => void;
}): ReactNode {
  return (
    <figure>
      <div
        className="drawing"
        role="presentation"
        onClick={(event) => {
          // a pointer's shortcut: the buttons below move the entry for everyone
          const entry = (event.target as Element).closest("[data-entry-cm]")?.getAttribute("data-entry-cm");
          if (entry) press?.(Number(entry));
        }}
        dangerouslySetInnerHTML={{ __html: figure.svg }}
      />
      <figcaption>
        {plate} {figure.sentence} {caption}
      </figcaption>
      <details className="numbers">
        <summary>The numbers of this plate</summary>
        <FigureTable table={figure.table} />
      </details>
    </figure>
  );
}
