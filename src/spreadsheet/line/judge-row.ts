import { claimOf, daysAfterRemoval, holdsLumens, LINE_COLUMNS, type RowEventKind } from "../../audit/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { ruleInForce } from "../../core/dwell/index.ts";
import type { MissingKind } from "../../core/missing/index.ts";
import { french, frenchToMillimetre } from "../../core/quantity/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import type { FieldName } from "../match/index.ts";
import type { RowReader } from "./read-row.ts";
import type { RowFaultCode } from "./row-fault.ts";

type Of<Value> = Partial<Record<FieldName, Value>>;

/** The typed values of a row while they are judged; what cannot be is taken out of them. */
interface RowValues {
  readonly dates: Of<CivilDate>;
  readonly numbers: Of<number>;
  readonly words: Of<string>;
  readonly absences: Of<MissingKind>;
  readonly again: readonly { readonly field: FieldName; readonly on: CivilDate }[];
  readonly veinSide: string | undefined;
}

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

export const isEvent = (field: FieldName): field is keyof typeof EVENTS => Object.hasOwn(EVENTS, field);

/** Holds the values of one row against its limits and against each other. */
export function judgeRow(
  { dates, numbers, words, absences, again, veinSide }: RowValues,
  { columns, limits }: RowReader,
  fault: (code: RowFaultCode, field: FieldName, found: string, against: string) => void,
): void {
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
    ["veinDiameterMm", narrowest(numbers, limits), limits.veinMm[1]],
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
  judgeLumens();
  judgeReason();
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

  /** As counting holds size and lumens (C2). */
  function judgeLumens(): void {
    const { sizeFr, lumens } = numbers;
    if (sizeFr === undefined || lumens === undefined || holdsLumens(sizeFr, lumens, limits)) return;
    const least = limits.leastSizeOfLumens[lumens - 1];
    fault("size against lumens", "sizeFr", `${sizeFr} Fr, ${lumens} lumens`, `${least} Fr or more`);
  }

  /** As counting has it (E5); an infection may have been one of the exit site, and a cell that was not read is not empty. */
  function judgeReason(): void {
    const claimed = words.removalReason === undefined ? undefined : claimOf(words.removalReason);
    const own = EVENT_FIELDS.filter((event) => EVENTS[event] === claimed);
    const explains = [...own, ...(claimed === "infection" ? (["exitSiteOn"] as const) : [])];
    const isEmpty = (event: FieldName) =>
      dates[event] === undefined && (absences[event] !== undefined || !columns.some(({ field }) => field === event));
    if (own.length === 0 || !explains.every(isEmpty)) return;
    const column = columns.find(({ field }) => field === own[0])?.match.header;
    fault(
      "event only in the reason",
      "removalReason",
      words.removalReason ?? "",
      column === undefined ? "no column of its date" : `${column} is empty`,
    );
  }
}

/** A thin line of a newborn may lie in a vein that no other has: there the narrowest is another. */
function narrowest({ sizeFr }: Numbers, { veinMm, newbornVeinMm, newbornSizeFr }: SheetLimits): number {
  return sizeFr !== undefined && sizeFr <= newbornSizeFr ? newbornVeinMm : veinMm[0];
}

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
