import {
  INDICATIONS,
  REMOVAL_REASONS,
  ROW_VEINS,
  SEEN_AT_REMOVAL,
  SIDES,
  type LineRow,
  type RowEnd,
  type RowEvent,
  type RowEventKind,
} from "../../audit/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { missing, type Maybe } from "../../core/missing/index.ts";
import { TIP_PLACES } from "../../core/tip/index.ts";
import type { FieldName } from "../match/index.ts";
import { lineKey, patientKey } from "./line-ledger.ts";
import { EVENTS } from "./judge-row.ts";
import type { SheetLine } from "./read-row.ts";
import type { KeyOf } from "./salted-keys.ts";

const dayOf = (date: CivilDate): Moment => ({ precision: "date", date });
const notAsked = missing("not asked");
const PERCENT = 100;
/** What the reader of the line table refuses in a name: a table that was written here must be read here. */
const UNSEEN = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u3164]+/gu;

/**
 * A row of the spreadsheet as the neutral line. Nobody can be named from it: keys are salted, free text stays behind.
 * A line without a removal is known to be in up to its own last event, or the day it was placed. Where the cell says that
 * it is still in, it was so up to the last day that the sheet tells of, which the caller hands in.
 */
export function lineRowOf(line: SheetLine, keyOf: KeyOf, sheetDay = lastDayOf([line])): LineRow {
  const { dates, numbers, words, absences } = line;
  const absent = (field: FieldName) => missing(absences[field] ?? "not asked");
  const one = <Word extends string>(list: readonly Word[], field: FieldName): Maybe<Word> =>
    list.find((known) => known === words[field]) ?? absent(field);
  const number = (field: FieldName): Maybe<number> => numbers[field] ?? absent(field);
  const event = (kind: RowEventKind, on: CivilDate | undefined): RowEvent[] =>
    on
      ? [
          {
            kind,
            at: dayOf(on),
            clinical: kind === "infection" ? true : notAsked,
            surveillance: notAsked,
            pairedCulture: notAsked,
          },
        ]
      : [];
  const { removedOn, birthDate } = dates;
  const events = [
    ...Object.entries(EVENTS).flatMap(([field, kind]) => [
      ...event(kind, dates[field as FieldName]),
      ...line.again.filter((one) => one.field === field).flatMap(({ on }) => event(kind, on)),
    ]),
    ...seenAtRemoval(),
  ];
  const undated = line.undated.filter((kind) => !events.some((one) => one.kind === kind));
  const birthWritten = absences.birthDate !== undefined && absences.ageYears === undefined;
  const age = birthDate ? Math.floor((dayNumber(line.placedOn) - dayNumber(birthDate)) / 365.2425) : numbers.ageYears;
  return {
    key: keyOf("line", `${line.row}|${lineKey(line)}`),
    patient: keyOf("patient", patientKey(line.patient)),
    placed: dayOf(line.placedOn),
    knownFrom: undefined,
    end: endOf(),
    events,
    ...(undated.length > 0 ? { undated } : {}),
    side: one(SIDES, "side"),
    vein: one(ROW_VEINS, "vein"),
    sizeFr: number("sizeFr"),
    lumens: number("lumens"),
    veinDiameterMm: number("veinDiameterMm"),
    writtenRatio: numbers.ratioPercent === undefined ? absent("ratioPercent") : numbers.ratioPercent / PERCENT,
    positionShare:
      numbers.positionPercent === undefined ? absent("positionPercent") : numbers.positionPercent / PERCENT,
    attempts: number("attempts"),
    inserter: words.inserter ? keyOf("inserter", words.inserter) : absent("inserter"),
    ward: words.ward?.replaceAll(UNSEEN, " ").trim() || absent("ward"),
    setting: notAsked,
    ageYears: age === undefined ? absent(birthWritten ? "birthDate" : "ageYears") : Math.floor(age),
    diagnosis: notAsked,
    indication: one(INDICATIONS, "indication"),
    tipMethod: notAsked,
    tipPlace: one(TIP_PLACES, "tipPlace"),
    lot: words.lot ? keyOf("lot", words.lot) : absent("lot"),
    catheter: words.catheter ? keyOf("catheter", words.catheter.toLowerCase()) : absent("catheter"),
    eGfr: notAsked,
    overdueCare: notAsked,
    overrides: notAsked,
    idleDays: notAsked,
    owned: notAsked,
    ...(numbers.insideCm === undefined && numbers.weightKg === undefined
      ? {}
      : {
          checks: {
            insideCm: number("insideCm"),
            weightKg: number("weightKg"),
            replaces: notAsked,
            timeKnownTo: "day",
            writtenAfter: notAsked,
          },
        }),
  };

  /** A reason that is itself the sighting, where no column dated it: as the record counts it, on the day of removal. */
  function seenAtRemoval(): readonly RowEvent[] {
    const kind = removedOn && SEEN_AT_REMOVAL[words.removalReason ?? ""];
    const dated = { occlusion: dates.occlusionOn, migration: dates.migrationOn }[String(kind)];
    return kind && !dated ? event(kind, removedOn) : [];
  }

  function endOf(): RowEnd {
    if (removedOn && words.removalReason === "handed on") return { kind: "handed on", at: dayOf(removedOn) };
    if (removedOn) return { kind: "removed", at: dayOf(removedOn), reason: one(REMOVAL_REASONS, "removalReason") };
    if (words.removedOn === "in place") return { kind: "in place", lastKnown: dayOf(sheetDay) };
    return { kind: "unknown", lastKnown: dayOf(lastDayOf([line])) };
  }
}

/** The last day any of the lines tells of: the sheet was still written then. */
export function lastDayOf(lines: readonly SheetLine[]): CivilDate {
  let last = lines[0]?.placedOn as CivilDate;
  for (const { placedOn, dates, again } of lines)
    for (const date of [placedOn, ...Object.values(dates), ...again.map(({ on }) => on)])
      if (date !== undefined && dayNumber(date) > dayNumber(last)) last = date;
  return last;
}
