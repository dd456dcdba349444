import {
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
import { keyNumber, lineKey, patientKey } from "./line-ledger.ts";
import type { SheetLine } from "./read-row.ts";

const dayOf = (date: CivilDate): Moment => ({ precision: "date", date });
const notAsked = missing("not asked");
const opaque = (text: string): string => keyNumber(text).toString(36);

/**
 * A row of the spreadsheet as the neutral line. Nobody can be named from it: patient and key are one-way numbers.
 * A line without a removal is known to be in only up to the day it was placed: the sheet says no more.
 */
export function lineRowOf(line: SheetLine): LineRow {
  const { dates, numbers, words } = line;
  const one = <Word extends string>(list: readonly Word[], word: string | undefined): Maybe<Word> =>
    list.find((known) => known === word) ?? notAsked;
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
  const age = birthDate ? Math.floor((dayNumber(line.placedOn) - dayNumber(birthDate)) / 365.2425) : numbers.ageYears;
  return {
    key: opaque(lineKey(line)),
    patient: opaque(patientKey(line.patient)),
    placed: dayOf(line.placedOn),
    knownFrom: undefined,
    end: removedOn
      ? { kind: "removed", at: dayOf(removedOn), reason: one(REMOVAL_REASONS, words.removalReason) }
      : { kind: "unknown", lastKnown: dayOf(line.placedOn) },
    events: [
      ...event("infection", dates.infectionOn),
      ...event("thrombosis", dates.thrombosisOn),
      ...event("occlusion", dates.occlusionOn),
    ],
    side: one(SIDES, words.side),
    vein: one(ROW_VEINS, words.vein),
    sizeFr: numbers.sizeFr ?? notAsked,
    lumens: numbers.lumens ?? notAsked,
    veinDiameterMm: numbers.veinDiameterMm ?? notAsked,
    writtenRatio: notAsked,
    positionShare: notAsked,
    attempts: numbers.attempts ?? notAsked,
    inserter: words.inserter ? opaque(words.inserter) : notAsked,
    ward: words.ward ?? notAsked,
    setting: notAsked,
    ageYears: age === undefined ? notAsked : Math.floor(age),
    diagnosis: notAsked,
    indication: notAsked,
    tipMethod: notAsked,
    tipPlace: notAsked,
    lot: words.lot ? opaque(words.lot) : notAsked,
    catheter: notAsked,
    eGfr: notAsked,
    overdueCare: notAsked,
    overrides: notAsked,
    idleDays: notAsked,
    owned: notAsked,
  };
}
