import type { RowEventKind } from "../../audit/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import type { MissingKind } from "../../core/missing/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import { isHeaderAgain, type SheetRow } from "../file/index.ts";
import {
  absenceOf,
  fieldOf,
  indicationOf,
  isStillIn,
  looksLikeFormula,
  readColumns,
  readDate,
  readDates,
  reasonOf,
  sideOf,
  saysNo,
  tipPlaceOf,
  veinOf,
  wardNames,
  type FieldName,
  type Matching,
  type ReadColumn,
} from "../match/index.ts";
import { EVENTS, isEvent, judgeRow } from "./judge-row.ts";
import { numberOf } from "./number-of.ts";
import { isInPowers } from "./packed-number.ts";
import { ROW_FAULTS, type RowFault, type RowFaultCode } from "./row-fault.ts";

/** One row, typed as its matching says. A value that is absent, or was not taken, is not in it. */
export interface SheetLine {
  readonly row: number;
  readonly patient: string;
  readonly placedOn: CivilDate;
  readonly dates: Readonly<Partial<Record<FieldName, CivilDate>>>;
  readonly numbers: Readonly<Partial<Record<FieldName, number>>>;
  readonly words: Readonly<Partial<Record<FieldName, string>>>;
  /** Which absence a matched column holds here; a field without a column is in none of the lists. */
  readonly absences: Readonly<Partial<Record<FieldName, MissingKind>>>;
  /** Further days of one event in one cell: blocked twice, written "3/4/25 & 9/4/25". */
  readonly again: readonly { readonly field: FieldName; readonly on: CivilDate }[];
  /** Kinds of event that were written without a day that can be read. */
  readonly undated: readonly RowEventKind[];
  /** The ward as its cell spells it, where the matching merges that spelling into another name. */
  readonly wardWritten?: string;
  /** The side named with the vein ("left basilic"), held against the arm column. */
  readonly veinSide: string | undefined;
}

export interface RowReading {
  /** Undefined when the row is left out. */
  readonly line: SheetLine | undefined;
  readonly faults: readonly RowFault[];
}

export interface RowReader {
  readonly headers: readonly string[];
  readonly columns: readonly ReadColumn[];
  /** What the matching makes of a spelling of a ward. */
  readonly wardNames: ReadonlyMap<string, string>;
  readonly limits: SheetLimits;
  readonly today: CivilDate;
}

export const rowReader = (
  headers: readonly string[],
  matching: Matching,
  limits: SheetLimits,
  today: CivilDate,
): RowReader => ({
  headers,
  columns: readColumns(headers, matching),
  wardNames: wardNames(matching.wards),
  limits,
  today,
});

const LEAVES_ROW_OUT = new Set(
  (Object.keys(ROW_FAULTS) as RowFaultCode[]).filter((code) => ROW_FAULTS[code] === "row left out"),
);

const WORDS = {
  side: sideOf,
  vein: veinOf,
  removalReason: reasonOf,
  tipPlace: tipPlaceOf,
  indication: indicationOf,
} as const satisfies Partial<Record<FieldName, (text: string) => string | undefined>>;
const isWord = (field: FieldName): field is keyof typeof WORDS => Object.hasOwn(WORDS, field);

/** Reads one row and tells everything wrong inside it. Nothing is worked out from a formula and nothing is mended. */
export function readRow(
  reader: RowReader,
  { row, cells, formulaAt = [], unworkedAt = [], otherEncodingAt = [], badQuotes, hidden }: SheetRow,
): RowReading {
  const { headers, columns, today } = reader;
  const faults: RowFault[] = [];
  const headerOf = (field: FieldName) => columns.find((one) => one.field === field)?.match.header ?? "";
  const fault = (
    code: RowFaultCode,
    field: FieldName | undefined,
    found: string,
    against = "",
    column = field ? headerOf(field) : "",
  ) =>
    faults.push({ row, column, field, code, found: found.length > 40 ? `${found.slice(0, 37)}...` : found, against });
  if (isHeaderAgain(cells, headers)) {
    fault("header again", undefined, cells[0] ?? "");
    return { line: undefined, faults };
  }
  if (hidden) fault("hidden row", undefined, "");
  if (badQuotes) fault("quotes do not pair", undefined, cells[0] ?? "");
  const last = cells.findLastIndex((cell) => cell.trim() !== "");
  if (last >= headers.length) fault("cells too many", undefined, String(last + 1), String(headers.length));
  // a workbook leaves empty cells at the end away; only a row that ends before its keys is short
  if (columns.some(({ field, at }) => (field === "patient" || field === "placedOn") && cells.length <= at))
    fault("cells missing", undefined, String(cells.length), String(headers.length));
  for (const [at, cell] of cells.entries())
    if (looksLikeFormula(cell)) fault("looks like a formula", undefined, cell, "", headers[at] ?? "");
  for (const at of formulaAt) fault("formula in the file", undefined, cells[at] ?? "", "", headers[at] ?? "");
  for (const at of otherEncodingAt) fault("another encoding", undefined, cells[at] ?? "", "", headers[at] ?? "");

  const dates: Partial<Record<FieldName, CivilDate>> = {};
  const numbers: Partial<Record<FieldName, number>> = {};
  const words: Partial<Record<FieldName, string>> = {};
  const absences: Partial<Record<FieldName, MissingKind>> = {};
  const again: { field: FieldName; on: CivilDate }[] = [];
  let placedWritten = false;
  let veinSide: string | undefined;
  let wardWritten: string | undefined;
  for (const { at, match, field } of columns) {
    const text = (cells[at] ?? "").trim();
    if (unworkedAt.includes(at)) fault("formula not worked out", field, "");
    const absence = absenceOf(text);
    if (absence) absences[field] = absence;
    if (absence) continue;
    const { kind } = fieldOf(field);
    if (field === "removedOn" && isStillIn(text)) words[field] = "in place";
    else if (kind === "date") {
      if (field === "placedOn") placedWritten = true;
      if (isEvent(field) && saysNo(text)) continue;
      const several = isEvent(field) ? readDates(text, match) : undefined;
      if (several?.every((on) => dayNumber(on) <= dayNumber(today))) {
        dates[field] = several[0] as CivilDate;
        for (const on of several.slice(1)) again.push({ field, on });
        continue;
      }
      const reading = readDate(text, match);
      if (reading.kind === "date" && dayNumber(reading.date) <= dayNumber(today)) dates[field] = reading.date;
      else if (reading.kind === "date")
        fault(field === "placedOn" ? "placed in the future" : "date in the future", field, text, today);
      else fault(unreadable(field), field, text, reading.kind);
    } else if (kind === "number") {
      const value = numberOf(text, field, match);
      if (typeof value === "number") numbers[field] = value;
      else fault(value, field, text, match.unit ?? "");
    } else if (isWord(field)) {
      const word = WORDS[field](text);
      if (word) words[field] = word;
      else fault("word not known", field, text);
      if (field === "vein") veinSide = sideOf(text);
    } else {
      // signs that cannot be seen would make two people of one
      const seen = text.replaceAll(/\p{Cf}+/gu, "").trim();
      if (seen !== "") words[field] = seen.slice(0, 80);
      const merged = field === "ward" ? reader.wardNames.get(words.ward ?? "") : undefined;
      if (merged !== undefined && merged !== words.ward) {
        fault("ward merged", field, words.ward ?? "", merged);
        wardWritten = words.ward;
        words.ward = merged;
      }
      if (field === "patient" && isInPowers(seen)) fault("number in powers", field, seen);
    }
  }
  judgeRow({ dates, numbers, words, absences, again, veinSide }, reader, fault);
  const undated = faults.flatMap(({ field, code }) =>
    code === "event without a day" && field && isEvent(field) ? [EVENTS[field]] : [],
  );
  // written, and not taken: somebody knew something that this row does not tell
  for (const { field, code } of faults)
    if (field && ROW_FAULTS[code] === "value left out") absences[field] = "not known";

  const { placedOn } = dates;
  if (!words.patient) fault("no patient", "patient", "");
  if (!placedOn && !placedWritten) fault("no placed date", "placedOn", "");
  const leftOut = faults.some(({ code }) => LEAVES_ROW_OUT.has(code));
  if (leftOut || !words.patient || !placedOn) return { line: undefined, faults };
  const line = { row, patient: words.patient, placedOn, dates, numbers, words, absences, again, undated, veinSide };
  return { line: wardWritten === undefined ? line : { ...line, wardWritten }, faults };
}

const unreadable = (field: FieldName): RowFaultCode =>
  field === "placedOn" ? "placed date unreadable" : isEvent(field) ? "event without a day" : "date unreadable";
