import type { Sheet, SheetRow } from "../file/index.ts";
import { isFieldName, type FieldName } from "./field.ts";
import type { ColumnMatch, Matching } from "./matching.ts";
import { absenceOf } from "./word.ts";

/** A column that is read: where it stands and what it is. */
export interface ReadColumn {
  readonly at: number;
  readonly match: ColumnMatch;
  readonly field: FieldName;
}

/** The columns of a sheet that a matching reads. */
export const readColumns = (headers: readonly string[], matching: Matching): readonly ReadColumn[] =>
  matching.columns.flatMap((match) => {
    const at = headers.indexOf(match.header);
    return isFieldName(match.field) && at >= 0 ? [{ at, match, field: match.field }] : [];
  });

/** A row that was given the number above it, and the row that number stands in. */
interface CarriedRow {
  readonly row: SheetRow;
  readonly from?: number;
}

/** What tells one person from another beside the number; where it is written otherwise nothing is carried. */
const PERSONAL: readonly FieldName[] = ["birthDate", "ageYears", "initials"];

/**
 * Carries a patient's number down over the rows that follow it without one, where the matching says so. Never over an
 * empty row, never onto a row without a date of placing, never onto one whose birth date, age or initials are others.
 */
export function numberCarrier(columns: readonly ReadColumn[]): (row: SheetRow) => CarriedRow {
  const patient = columns.find(({ field }) => field === "patient");
  if (patient?.match.withoutNumber !== "the number above") return (row) => ({ row });
  const at = new Map(columns.map((column) => [column.field, column.at]));
  const written = ({ cells }: SheetRow, field: FieldName) => {
    const text = (cells[at.get(field) ?? -1] ?? "").trim();
    return absenceOf(text) === undefined ? text : "";
  };
  let head: SheetRow | undefined;
  let last = 0;
  return (row) => {
    const follows = row.row === last + 1;
    last = row.row;
    if (written(row, "patient") !== "") {
      head = row;
      return { row };
    }
    if (!follows) head = undefined;
    const above = head;
    if (above === undefined || written(row, "placedOn") === "") return { row };
    const another = PERSONAL.some(
      (field) => written(row, field) !== "" && written(row, field) !== written(above, field),
    );
    if (another) {
      head = undefined;
      return { row };
    }
    const cells = Array.from(
      { length: Math.max(row.cells.length, patient.at + 1) },
      (_, cell) => row.cells[cell] ?? "",
    );
    cells[patient.at] = written(above, "patient");
    return { row: { ...row, cells }, from: above.row };
  };
}

/** How many of the first rows have no number of their own and would be given the one above. */
export function rowsToCarry(matching: Matching, { headers, sample }: Pick<Sheet, "headers" | "sample">): number {
  const carried = numberCarrier(
    readColumns(headers, matching).map((column) => ({
      ...column,
      match: { ...column.match, withoutNumber: "the number above" },
    })),
  );
  return sample.filter((row) => carried(row).from !== undefined).length;
}
