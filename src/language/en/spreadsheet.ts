import {
  consequenceOf,
  standingOf,
  type AlikeWards,
  type FieldName,
  type MatchingQuestion,
  type Refusal,
  type RowFault,
  type RowFaultCode,
  type Sheet,
  type SheetChoice,
  type Suggestion,
  type SwappedColumns,
} from "../../spreadsheet/index.ts";
import { numberOf } from "./number.ts";

/** Why a file is not read: what was found, the rule, what to do. */
export const refusalSentences: Readonly<Record<Refusal["code"], string>> = {
  "empty-file": "The file is empty. Choose another file.",
  "too-large": "The file is too large for one reading. Split it by year.",
  "not-a-table": "The file holds no table of rows and columns. Save it as CSV or XLSX.",
  "old-workbook": "The workbook is of the old kind, XLS. Save it as XLSX or CSV.",
  "wrong-encoding": "The letters do not fit their encoding. Save the file as CSV UTF-8.",
  "cell-too-large": "A cell is larger than 100,000 characters, or a row than 400,000. Shorten it and save again.",
  "quote-never-closed": "A quotation mark opens and never closes. Close it and save again.",
  "too-many-columns": "The table has more than 500 columns. Keep the columns about lines.",
  "zip-damaged": "The workbook is damaged or cut off. Copy it again or save it again.",
  "zip-bomb": "The workbook unpacks to far more than a table needs. It was not opened.",
  "zip-too-many-parts": "The workbook has more than 1,000 parts. Save the sheet alone.",
  "zip-nested": "The workbook holds another file inside. Save the sheet alone as CSV.",
  "zip-encrypted": "The workbook has a password. Save it without one.",
  "macro-workbook": "The workbook holds macros. Save it as plain XLSX or CSV.",
  "external-links": "The workbook takes values from other files. Break the links and save again.",
  "not-a-workbook": "The file is a zip but no workbook. Save it as XLSX or CSV.",
  "no-such-sheet": "The workbook has no filled sheet of that name. Check the name.",
  "no-rows": "The table has a header and no rows below it. Add the lines, or choose another sheet.",
  "empty-sheets": "No sheet of the workbook holds anything. Choose another file.",
  cancelled: "The reading was stopped. Nothing was imported.",
  "workbook-too-large": "The workbook holds more than can be read. Save the sheet as CSV UTF-8.",
  "binary-workbook": "The workbook is binary, XLSB. Save it as XLSX or CSV.",
  "open-document": "The file is an OpenDocument sheet. Save it as XLSX or CSV.",
  "markup-file": "The file is a web page or XML. Open it and save it as XLSX.",
  "definitions-inside": "The workbook defines signs of its own, as attacks do. It was not opened.",
  "out-of-order": "Rows or cells stand twice or go back. Save the workbook again.",
  "changed-since": "The file changed after the preview. Look at the preview again.",
};

export const sayRefusal = ({ code, found, row }: Refusal): string =>
  [
    refusalSentences[code],
    ...(found === "" ? [] : [`Found: ${found}.`]),
    ...(row === undefined ? [] : [`Row ${row}.`]),
  ].join(" ");

/** The rule a row breaks and what to do about it. */
export const rowFaultSentences: Readonly<Record<RowFaultCode, string>> = {
  "no patient": "No patient number. Add it in the file.",
  "no placed date": "No date of placing. Add it in the file.",
  "cells missing": "The row ends before its key cells. Complete it in the file.",
  "cells too many": "The row has more cells than the header. Look for a stray mark.",
  "quotes do not pair": "Quotation marks do not pair. Mend them in the file.",
  "placed date unreadable": "The date of placing cannot be read. Correct it, or the date order.",
  "placed in the future": "The date of placing is still to come. Correct it.",
  "removed before placed": "Removed before it was placed. Correct one of the dates.",
  "same line twice": "The same line stands twice. One is taken.",
  "header again": "The header stands here again. The row was passed over.",
  "date unreadable": "The date cannot be read. Correct it, or the date order.",
  "event without a day": "Something happened, and no day can be read. Only the upper bound of a rate holds it.",
  "date in the future": "The date is still to come. Correct it.",
  "not a number": "Not a plain number. Write digits with one decimal mark.",
  "number of another kind": "The unit does not belong to this column. Correct the unit.",
  "age impossible": "The age cannot be. Correct the age or the birth date.",
  "born after placed": "Born after the line was placed. Correct one of the dates.",
  "word not known": "The word is not known here. Write one that the guide lists.",
  "arm against vein": "The arm and the vein name different sides. Ask who placed it.",
  "beyond the table": "No line has such a value. It was not taken; correct it.",
  "looks like a formula": "The text begins like a formula. It was kept as text.",
  "formula in the file": "A formula filled this cell. Its last shown value was taken.",
  "outside the usual": "Outside the usual for this column. Check the value and its unit.",
  "long stay": "In place longer than usual. Check both dates.",
  "event before placing": "The event is before the placing. Check both dates.",
  "event after removal": "The event is after the removal. Check both dates.",
  "lines overlap": "Another line of this patient was still in. Check both rows.",
  "same line, other values": "The same line stands twice with other values. Keep the right row.",
  "ratio against size": "The ratio is not the size over the vein. Check all three.",
  "near number": "Nearly the number of another row, and one birth date. Is it one person?",
  "number of two people": "One number with two birth dates or initials. Check the number.",
  "check digit": "The last digit does not check the number. Type the number again.",
  "day and month": "Far from the rest; day and month may have changed places. Check it.",
  "size against kind": "The same catheter has another size elsewhere. Check size and catheter.",
  "another encoding": "The letters are written in another way than the file. Look at them.",
  "hidden row": "The row is hidden in the sheet. It was read; check that it belongs.",
  "merged cells": "Merged cells give their value to the first row only. Split them.",
  "number carried down": "The number was carried down from a row above. Check that it is theirs.",
  "event only in the reason": "The reason names an event that no column dates. Write its date.",
  "size against lumens": "So small a line cannot hold so many lumens. Check both.",
  "formula not worked out": "The formula holds no value. Open the file in its program and save it again.",
  "number in powers": "The number was shortened and its last digits are lost. Write it in full.",
  "ward merged": "The spelling of the ward was merged, as the matching says. Check the name.",
};

export const sayRowFault = (fault: RowFault): string =>
  [
    `Row ${fault.row}${fault.column === "" ? "" : `, ${fault.column}`}: ${rowFaultSentences[fault.code]}`,
    ...(fault.found === "" ? [] : [`Found: ${fault.found}.`]),
    ...(fault.against === "" ? [] : [`Held against: ${fault.against}.`]),
  ].join(" ");

const questionSentences: Readonly<Record<MatchingQuestion["code"], string>> = {
  "not confirmed": "Nobody has confirmed the matching. Write your initials under confirmedBy.",
  "patient not matched": "Which column holds the patient number?",
  "placed not matched": "Which column holds the date of placing?",
  "unit not said": "In which unit is this column?",
  "order not said": "Does the day or the month come first?",
  "century not said": "Years of two digits: up to which are they 20xx?",
  "system not said": "Do day counts begin in 1900 or in 1904?",
  "header not in file": "This column of the matching is not in the file.",
  "header not matched": "The matching does not know this column.",
  "field twice": "Two columns are matched to one thing. Keep one.",
  "number above not said": "Some rows have no number below one that has. Is it theirs too?",
  "ward numbers differ": "These spellings or the name hold different numbers. Different numbers are different wards.",
  "ward spelling twice": "The spelling is merged into two wards. Take it out of one.",
};
export const sayMatchingQuestion = (question: MatchingQuestion): string =>
  "header" in question ? `${question.header}: ${questionSentences[question.code]}` : questionSentences[question.code];

const suggestionReasons: Readonly<Record<Suggestion["reason"], string>> = {
  header: "by its header",
  "header and values": "by its header and its values",
  values: "by its values",
  "nothing fits": "nothing fits it",
};
const columnQuestions: Readonly<Record<Suggestion["questions"][number], string>> = {
  "date order": "Does the day or the month come first?",
  "mixed date orders": "No one order fits every date. Which is the rule?",
  century: "Years of two digits: up to which are they 20xx?",
  "day count system": "Do day counts begin in 1900 or in 1904?",
  unit: "In which unit is it?",
};
export const saySuggestion = ({ header, field, confidence, reason, seen, questions }: Suggestion): string =>
  [
    `${header}: ${field}, ${confidence}, ${suggestionReasons[reason]}${seen === "" ? "" : ` (${seen.slice(0, 30)})`}.`,
    ...questions.map((one) => columnQuestions[one]),
  ].join(" ");

const fieldWords: Readonly<Record<FieldName | "left out", string>> = {
  "left out": "left out",
  patient: "patient number",
  birthDate: "date of birth",
  ageYears: "age in years",
  placedOn: "date of placing",
  removedOn: "date of removal",
  removalReason: "reason of removal",
  side: "arm",
  vein: "vein",
  sizeFr: "size",
  lumens: "lumens",
  veinDiameterMm: "vein diameter",
  insideCm: "length inside",
  attempts: "attempts",
  ward: "ward",
  inserter: "inserter",
  infectionOn: "date of infection",
  thrombosisOn: "date of clot",
  occlusionOn: "date of blockage",
  lot: "lot",
  exitSiteOn: "date of exit site infection",
  migrationOn: "date the tip moved",
  tipPlace: "place of the tip",
  indication: "what the line was for",
  positionPercent: "place along the arm, %",
  ratioPercent: "catheter over vein, %",
  weightKg: "weight, kg",
  catheter: "kind of catheter",
  initials: "initials",
};
/** A field of a spreadsheet of lines, as people say it. */
export const saySheetField = (field: FieldName | "left out"): string => fieldWords[field];

/** Why a column was taken for what it is, and a value that shows it. */
export const sayWhyColumn = ({ confidence, reason, seen }: Suggestion): string =>
  `${reason === "nothing fits" ? "" : `${confidence}, `}${suggestionReasons[reason]}${seen === "" ? "" : `; such as ${seen.slice(0, 30)}`}`;

/** A sheet to choose, with the rows it says it has. */
export const saySheetChoice = ({ name, rows, hidden }: SheetChoice): string =>
  [name, ...(rows === undefined ? [] : [`${rows} rows`]), ...(hidden ? ["hidden"] : [])].join(", ");

/** What a workbook hides and what is read all the same. */
export const sayHidden = ({ sheetHidden, hiddenColumns = [], headers }: Omit<Sheet, "rows">): readonly string[] => [
  ...(sheetHidden ? ["The sheet is hidden in the workbook. It is read all the same."] : []),
  ...(hiddenColumns.some((at) => at < headers.length)
    ? [`Hidden in the sheet, read all the same: ${hiddenColumns.flatMap((at) => headers[at] ?? []).join(", ")}.`]
    : []),
];

/** What the letters of a file were read as, and what a person looks at. */
export function sayEncoding({ encoding, encodingSample }: Pick<Sheet, "encoding" | "encodingSample">): string {
  if (encoding === undefined) return "";
  return encodingSample.length === 0
    ? `Read as ${encoding}. The first rows hold plain letters only: nothing to check.`
    : `Read as ${encoding}. Check that these words look right: ${encodingSample.join(", ")}.`;
}

/** Two date columns of which each seems to be the other. */
export const saySwappedColumns = ({ placed, removed, backwards, rows }: SwappedColumns): string =>
  `In ${backwards} of ${rows} first rows ${removed} is before ${placed}. The two columns look swapped.`;

/** What becomes of a row, and what counting does by its own rule. */
export function sayBecomes(code: RowFaultCode): string {
  const { severity, rule } = standingOf(code);
  return `${consequenceOf(code)} (${severity}${rule === undefined ? "" : ` in Count, ${rule}`})`;
}

/** How many of a file's faults are listed, and where the rest are. */
export const sayListed = (listed: number, all: number): string =>
  listed === all
    ? `Every one of ${numberOf(all, "fault")} is listed.`
    : `${listed} of ${numberOf(all, "fault")} are listed, the first of each kind.`;
/** The kinds of event that no column tells: their counts will say nothing, and no nought. */
export const sayNoColumn = (fields: readonly FieldName[]): string =>
  `No column for: ${fields.map(saySheetField).join(", ")}. Count can say nothing of these.`;

/** Every spelling of a ward, those alike side by side; empty where there is one or none. */
export function sayWards(wards: ReadonlyMap<string, number>): readonly string[] {
  const alike = new Intl.Collator("en", { numeric: true, sensitivity: "base" });
  const key = (ward: string) => [/\d+/.exec(ward)?.[0] ?? "", ward];
  const sorted = [...wards].sort(([a], [b]) => {
    const [[digitsA = "", nameA = ""], [digitsB = "", nameB = ""]] = [key(a), key(b)];
    return alike.compare(digitsA, digitsB) || alike.compare(nameA, nameB);
  });
  if (sorted.length < 2) return [];
  return [
    `${numberOf(sorted.length, "ward")} as they will be counted: ${sorted.map(([ward, lines]) => `${ward} ${lines}`).join(", ")}.`,
    "Each name is counted as a ward of its own. One ward, several spellings: merge them first.",
  ];
}

/** Spellings that may be one ward, each with its lines. */
export const sayAlikeWards = (spellings: AlikeWards): string =>
  spellings.map(([spelling, lines]) => `${spelling} (${numberOf(lines, "line")})`).join(", ");
