import { daysAfterRemoval, LINE_COLUMNS, type RowEventKind } from "../../audit/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { ruleInForce } from "../../core/dwell/index.ts";
import type { MissingKind } from "../../core/missing/index.ts";
import {
  french,
  frenchToMillimetre,
  inch,
  inchToCentimetre,
  millimetre,
  millimetreToFrench,
} from "../../core/quantity/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import { isHeaderAgain, type SheetRow } from "../file/index.ts";
import {
  absenceOf,
  fieldOf,
  indicationOf,
  isStillIn,
  looksLikeFormula,
  lumensOf,
  readDate,
  readDates,
  readQuantity,
  reasonOf,
  sideOf,
  tipPlaceOf,
  veinOf,
  type ColumnMatch,
  type FieldName,
  type Matching,
} from "../match/index.ts";
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
  readonly columns: readonly { readonly at: number; readonly match: ColumnMatch; readonly field: FieldName }[];
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
  columns: matching.columns.flatMap((match) => {
    const at = headers.indexOf(match.header);
    return match.field === "left out" || at < 0 ? [] : [{ at, match, field: match.field }];
  }),
  limits,
  today,
});

const LEAVES_ROW_OUT = new Set(
  (Object.keys(ROW_FAULTS) as RowFaultCode[]).filter((code) => ROW_FAULTS[code] === "row left out"),
);
export const EVENTS = {
  infectionOn: "infection",
  thrombosisOn: "thrombosis",
  occlusionOn: "occlusion",
  exitSiteOn: "exit site infection",
  migrationOn: "migration",
} as const satisfies Partial<Record<FieldName, RowEventKind>>;
export const EVENT_FIELDS = Object.keys(EVENTS) as readonly (keyof typeof EVENTS)[];

/** What the line table itself can hold: a value beyond it is no value of a line. */
const TABLE_NAMES = {
  sizeFr: "size_fr",
  lumens: "lumens",
  veinDiameterMm: "vein_diameter_mm",
  attempts: "attempts",
  positionPercent: "position_percent",
  ratioPercent: "ratio_percent",
  weightKg: "weight_kg",
} as const satisfies Partial<Record<FieldName, string>>;
const HELD: readonly (readonly [FieldName, number, number])[] = (
  Object.entries(TABLE_NAMES) as [keyof typeof TABLE_NAMES, string][]
).map(([field, name]) => {
  const column = LINE_COLUMNS.find((one) => one.name === name);
  return [field, column?.least ?? 0, column?.most ?? Infinity];
});

const FRACTIONS: ReadonlySet<FieldName> = new Set(["ageYears", "ratioPercent", "weightKg"]);

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
  { row, cells, formulaAt = [], otherEncodingAt = [], badQuotes, hidden }: SheetRow,
): RowReading {
  const { headers, columns, limits, today } = reader;
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
  for (const { at, match, field } of columns) {
    const text = (cells[at] ?? "").trim();
    const absence = absenceOf(text);
    if (absence) absences[field] = absence;
    if (absence) continue;
    const { kind } = fieldOf(field);
    if (field === "removedOn" && isStillIn(text)) words[field] = "in place";
    else if (kind === "date") {
      if (field === "placedOn") placedWritten = true;
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
    }
  }
  judge();
  // written, and not taken: somebody knew something that this row does not tell
  for (const { field, code } of faults)
    if (field && ROW_FAULTS[code] === "value left out") absences[field] = "not known";

  const { placedOn } = dates;
  if (!words.patient) fault("no patient", "patient", "");
  if (!placedOn && !placedWritten) fault("no placed date", "placedOn", "");
  const leftOut = faults.some(({ code }) => LEAVES_ROW_OUT.has(code));
  if (leftOut || !words.patient || !placedOn) return { line: undefined, faults };
  return { line: { row, patient: words.patient, placedOn, dates, numbers, words, absences, again, veinSide }, faults };

  function judge(): void {
    const { placedOn, removedOn, birthDate } = dates;
    if (placedOn && removedOn) {
      const stay = dayNumber(removedOn) - dayNumber(placedOn);
      if (stay < 0) fault("removed before placed", "removedOn", removedOn, placedOn);
      if (stay > limits.longestStayDays)
        fault("long stay", "removedOn", `${stay} days`, `${limits.longestStayDays} days`);
    }
    if (placedOn && birthDate) {
      const years = (dayNumber(placedOn) - dayNumber(birthDate)) / 365.2425;
      if (years < 0) fault("born after placed", "birthDate", birthDate, placedOn);
      if (years > limits.oldestYears)
        fault("age impossible", "birthDate", `${Math.floor(years)} years`, `${limits.oldestYears} years`);
      if (years < 0 || years > limits.oldestYears) delete dates.birthDate;
    }
    const { ageYears } = numbers;
    if (ageYears !== undefined && (ageYears < 0 || ageYears > limits.oldestYears)) {
      fault("age impossible", "ageYears", String(ageYears), `0 to ${limits.oldestYears}`);
      delete numbers.ageYears;
    }
    for (const [field, least, most] of [
      ["sizeFr", ...limits.sizeFr],
      ["lumens", 1, limits.mostLumens],
      ["veinDiameterMm", ...limits.veinMm],
      ["insideCm", ...limits.insideCm],
      ["attempts", 1, limits.mostAttempts],
    ] as const) {
      const value = numbers[field];
      if (value !== undefined && (value < least || value > most))
        fault("outside the usual", field, String(value), `${least} to ${most}`);
    }
    for (const [field, least, most] of HELD) {
      const value = numbers[field];
      if (value === undefined || (value >= least && value <= most)) continue;
      fault("beyond the table", field, String(value), `${least} to ${most}`);
      delete numbers[field];
    }
    if (words.side && veinSide && words.side !== veinSide) {
      fault("arm against vein", "side", words.side, veinSide);
      delete words.side;
    }
    if (!ratioAgrees(numbers, limits.ratioAgrees))
      fault("ratio against size", "ratioPercent", `${numbers.ratioPercent} %`, `${sizeOverVein(numbers)} %`);
    for (const event of EVENT_FIELDS)
      for (const on of [dates[event], ...again.filter(({ field }) => field === event).map((one) => one.on)]) {
        if (on && placedOn && dayNumber(on) < dayNumber(placedOn)) fault("event before placing", event, on, placedOn);
        if (on && removedOn && dayNumber(on) > dayNumber(removedOn) + belongsDays(event, removedOn, limits))
          fault("event after removal", event, on, removedOn);
      }
  }
}

const unreadable = (field: FieldName): RowFaultCode =>
  field === "placedOn" ? "placed date unreadable" : isEvent(field) ? "event without a day" : "date unreadable";
const isEvent = (field: FieldName): boolean => Object.hasOwn(EVENTS, field);

/** The days after removal that counting gives this event, under the definition in force then. */
function belongsDays(event: keyof typeof EVENTS, removedOn: CivilDate, limits: SheetLimits): number {
  const rule = ruleInForce(limits.surveillance, removedOn) ?? limits.surveillance[0];
  return rule ? daysAfterRemoval(EVENTS[event], limits, rule) : 0;
}

type Numbers = Readonly<Partial<Record<FieldName, number>>>;
const sizeOverVein = ({ sizeFr = 0, veinDiameterMm = 0 }: Numbers): number =>
  Math.round((frenchToMillimetre(french(sizeFr)) / veinDiameterMm) * 100);

/** As counting holds a written ratio (C1). */
function ratioAgrees(numbers: Numbers, share: number): boolean {
  const { ratioPercent, sizeFr, veinDiameterMm } = numbers;
  if (ratioPercent === undefined || !sizeFr || !veinDiameterMm) return true;
  const worked = (frenchToMillimetre(french(sizeFr)) / veinDiameterMm) * 100;
  return Math.abs(ratioPercent - worked) <= share * worked;
}

/** A number in the field's own unit; a unit written in the cell wins over the column's. */
function numberOf(
  text: string,
  field: FieldName,
  { unit }: ColumnMatch,
): number | "not a number" | "number of another kind" {
  const reading = readQuantity(text);
  if (!reading) return (field === "lumens" ? lumensOf(text) : undefined) ?? "not a number";
  const { value } = reading;
  const written = ["Fr", "mm", "cm", "in"].includes(reading.unit ?? "") ? reading.unit : undefined;
  const from = written ?? unit;
  if (field === "sizeFr")
    return from === "Fr" ? value : from === "mm" ? millimetreToFrench(millimetre(value)) : "number of another kind";
  if (field === "veinDiameterMm") return from === "mm" ? value : from === "cm" ? value * 10 : "number of another kind";
  if (field === "insideCm") {
    if (from === "in") return inchToCentimetre(inch(value));
    return from === "cm" ? value : from === "mm" ? value / 10 : "number of another kind";
  }
  if (written) return "number of another kind";
  return FRACTIONS.has(field) || Number.isInteger(value) ? value : "not a number";
}
