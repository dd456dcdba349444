import type { ReactNode } from "react";
import { saySheetChoice } from "../../language/index.ts";
import type { SheetChoice } from "../../spreadsheet/index.ts";

/** A workbook of several filled sheets: which of them holds the lines. */
export function SheetsPart({
  sheets,
  take,
}: {
  readonly sheets: readonly SheetChoice[];
  readonly take: (name: string) => void;
}): ReactNode {
  return (
    <section aria-label="Sheets">
      <h2>Which sheet?</h2>
      <p className="import-presses">
        {sheets.map((one) => (
          <button key={one.name} type="button" onClick={() => take(one.name)}>
            {saySheetChoice(one)}
          </button>
        ))}
      </p>
    </section>
  );
}
