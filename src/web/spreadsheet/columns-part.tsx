import type { ReactNode } from "react";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayEncoding, sayHidden, sayMatchingQuestion, saySwappedColumns } from "../../language/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import {
  readMatching,
  swappedColumns,
  withColumnsSwapped,
  type Matching,
  type MatchingQuestion,
  type Suggestion,
} from "../../spreadsheet/index.ts";
import { answeredAlike } from "./answered-alike.ts";
import { ColumnRow } from "./column-row.tsx";
import { KeptFile } from "./kept-file.tsx";
import type { SeenSheet } from "./intake.ts";
import { NoColumn } from "./no-column.tsx";

/** A sheet whose columns are being confirmed. */
export interface OpenColumns {
  readonly sheet: SeenSheet;
  readonly matching: Matching;
  readonly suggestions: readonly Suggestion[];
  readonly confirmed: ReadonlySet<string>;
}

/** What every column is, what is still to be answered, and under it the press that reads. */
export function ColumnsPart({
  open,
  today,
  limits,
  questions,
  unticked,
  offersCarry,
  tell,
  change,
  children,
}: {
  readonly open: OpenColumns;
  readonly today: CivilDate;
  readonly limits: SheetLimits;
  readonly questions: readonly MatchingQuestion[];
  readonly unticked: readonly string[];
  /** Rows without a number were met further down than the first rows show. */
  readonly offersCarry: boolean;
  readonly tell: (words: string) => void;
  readonly change: (next: Partial<OpenColumns>) => void;
  readonly children: ReactNode;
}): ReactNode {
  const swapped = swappedColumns(open.matching, open.sheet, limits);
  return (
    <section aria-label="Columns">
      <h2>
        Columns of {open.sheet.fileName}
        {open.sheet.sheetName ? `, ${open.sheet.sheetName}` : ""}
      </h2>
      <p>
        Header in row {open.sheet.headerRow}. {sayEncoding(open.sheet)}
      </p>
      {sayHidden(open.sheet).map((said) => (
        <p key={said} data-import="hidden">
          {said}
        </p>
      ))}
      <KeptFile
        label="Matching kept before (JSON)"
        name="matching"
        take={(text) => {
          const matching = readMatching(text);
          if (!matching) {
            tell("This is no matching. Choose one that was saved here.");
            return;
          }
          tell(`The matching of ${matching.confirmedBy || "nobody"} is used.`);
          change({
            matching,
            confirmed: new Set(matching.confirmedBy === "" ? [] : matching.columns.map(({ header }) => header)),
          });
        }}
      />
      {swapped ? (
        <p className="told" data-import="swapped">
          {saySwappedColumns(swapped)}{" "}
          <button
            type="button"
            onClick={() =>
              change({
                matching: withColumnsSwapped(open.matching, swapped),
                confirmed: new Set(
                  [...open.confirmed].filter((header) => header !== swapped.placed && header !== swapped.removed),
                ),
              })
            }
          >
            Swap the two columns
          </button>
        </p>
      ) : null}
      <ul className="sheet-columns">
        {open.matching.columns.map((column) => {
          const at = open.sheet.headers.indexOf(column.header);
          return (
            <ColumnRow
              key={column.header}
              column={column}
              suggestion={open.suggestions.find(
                ({ header, field }) => header === column.header && field === column.field,
              )}
              sample={open.sheet.sample.map(({ cells }) => (cells[at] ?? "").slice(0, 24))}
              questions={questions.flatMap((one) =>
                "header" in one && one.header === column.header ? [one.code] : [],
              )}
              confirmed={open.confirmed.has(column.header)}
              offersCarry={offersCarry}
              set={(next) =>
                change({
                  matching: answeredAlike(
                    open.matching,
                    {
                      ...open.matching,
                      columns: open.matching.columns.map((one) => (one.header === next.header ? next : one)),
                    },
                    open.sheet,
                    today,
                  ),
                  confirmed: new Set([...open.confirmed].filter((header) => header !== next.header)),
                })
              }
              confirm={(on) =>
                change({
                  confirmed: new Set(
                    on
                      ? [...open.confirmed, column.header]
                      : [...open.confirmed].filter((header) => header !== column.header),
                  ),
                })
              }
            />
          );
        })}
      </ul>
      {questions.length > 0 ? (
        <ul className="plain questions" data-import="questions">
          {questions.map((one) => (
            <li key={sayMatchingQuestion(one)}>{sayMatchingQuestion(one)}</li>
          ))}
        </ul>
      ) : null}
      {questions.length === 0 && unticked.length > 0 ? (
        <p data-import="unticked">Still to confirm: {unticked.join(", ")}.</p>
      ) : null}
      <NoColumn matching={open.matching} />
      {children}
    </section>
  );
}
