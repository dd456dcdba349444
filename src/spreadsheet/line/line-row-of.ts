import {
  INDICATIONS,
  REMOVAL_REASONS,
  ROW_VEINS,
  SIDES,
  type LineRow,
  type RowEvent,
  type RowEventKind,
} from "../../audit/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { missing, type Maybe } from "../../core/missing/index.ts";
import { TIP_PLACES } from "../../core/tip/index.ts";
import type { FieldName } from "../match/index.ts";
import { lineKey, patientKey } from "./line-ledger.ts";
import type { SheetLine } from "./read-row.ts";
import type { KeyOf } from "./salted-keys.ts";

const dayOf = (date: CivilDate): Moment => ({ precision: "date", date });
const notAsked = missing("not asked");
const PERCENT = 100;

/**
 * A row of the spreadsheet as the neutral line. Nobody can be named from it: keys are salted, free text stays behind.
 * A line without a removal is known to be in only up to the day it was placed: the sheet says no more.
 */
export function lineRowOf(line: SheetLine, keyOf: KeyOf): LineRow {
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
  const birthWritten = absences.birthDate !== undefined && absences.ageYears === undefined;
  const age = birthDate ? Math.floor((dayNumber(line.placedOn) - dayNumber(birthDate)) / 365.2425) : numbers.ageYears;
  return {
    key: keyOf("line", `${line.row}|${lineKey(line)}`),
    patient: keyOf("patient", patientKey(line.patient)),
    placed: dayOf(line.placedOn),
    knownFrom: undefined,
    end: removedOn
      ? { kind: "removed", at: dayOf(removedOn), reason: one(REMOVAL_REASONS, "removalReason") }
      : { kind: "unknown", lastKnown: dayOf(line.placedOn) },
    events: [
      ...event("infection", dates.infectionOn),
      ...event("thrombosis", dates.thrombosisOn),
      ...event("occlusion", dates.occlusionOn),
      ...event("exit site infection", dates.exitSiteOn),
      ...event("migration", dates.migrationOn),
    ],
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
    ward: words.ward?.replaceAll(/\p{Cc}+/gu, " ") ?? absent("ward"),
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
}
