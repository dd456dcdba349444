import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import type { FieldName } from "../match/index.ts";
import { GrowingList } from "./grown.ts";
import { keyNumber, patientKey } from "./line-ledger.ts";
import { packNumber } from "./packed-number.ts";
import { placingsOutOfOrder, staysOutOfKeeping } from "./swapped-date.ts";
import { checkDigitsThatFail, nearNumbers, numbersOfTwoPeople, type People } from "./near-person.ts";
import { sizesOfNoOther } from "./size-of-kind.ts";
import type { RowFault, RowFaultCode } from "./row-fault.ts";
import type { SheetLine } from "./read-row.ts";

/** One doubt about a row, by its place among the lines taken. */
export interface Doubt {
  readonly at: number;
  readonly code: RowFaultCode;
  readonly field: FieldName;
  readonly found: string;
  /** Another line by its place, or a word. */
  readonly against: number | string;
}

/** What a row that is lawful by itself looks like beside all the others; 40 bytes of each line are kept. */
export interface DoubtLedger {
  readonly add: (line: SheetLine) => void;
  readonly faults: (headerOf: (field: FieldName) => string) => readonly RowFault[];
}

export function doubtLedger(limits: SheetLimits): DoubtLedger {
  const whole = () => new GrowingList(new Int32Array(1024));
  const [rows, placed, removed, born, initials, catheter, sizes] = [
    whole(),
    whole(),
    whole(),
    whole(),
    whole(),
    whole(),
    whole(),
  ];
  const numbers = new GrowingList(new Float64Array(1024));
  // names of catheters are few in any real file; beyond this no kind tells anything
  const kinds = new Map<string, number>();
  const dayOr = (date: CivilDate | undefined): number => (date ? dayNumber(date) : NO_DAY);
  const kindOf = (name: string | undefined): number => {
    if (name === undefined || kinds.size > MOST_KINDS) return 0;
    const key = name.toLowerCase();
    const known = kinds.get(key) ?? kinds.size + 1;
    kinds.set(key, known);
    return known;
  };
  return {
    add: (line) => {
      rows.add(line.row);
      numbers.add(packNumber(patientKey(line.patient)));
      placed.add(dayNumber(line.placedOn));
      removed.add(dayOr(line.dates.removedOn));
      born.add(dayOr(line.dates.birthDate));
      initials.add(
        line.words.initials ? keyNumber(line.words.initials.toLowerCase().replaceAll(/[^\p{L}]/gu, "")) | 0 : 0,
      );
      catheter.add(kindOf(line.words.catheter));
      sizes.add(Math.round((line.numbers.sizeFr ?? 0) * TENTHS));
    },
    faults: (headerOf) => {
      const people: People = { numbers, born, initials, noDay: NO_DAY };
      const doubts: readonly Doubt[] = [
        ...placingsOutOfOrder(placed, limits.orderDays),
        ...staysOutOfKeeping(placed, removed, NO_DAY),
        ...nearNumbers(people),
        ...numbersOfTwoPeople(people),
        ...checkDigitsThatFail(people, limits.checkDigitShare),
        ...(kinds.size > MOST_KINDS ? [] : sizesOfNoOther(catheter, sizes, limits.kindRows, TENTHS)),
      ];
      return doubts
        .map(({ at, code, field, found, against }) => ({
          row: rows.at(at),
          column: headerOf(field),
          field,
          code,
          found,
          against: typeof against === "number" ? `row ${rows.at(against)}` : against,
        }))
        .sort((a, b) => a.row - b.row);
    },
  };
}

const NO_DAY = -2_147_483_648;
/** Sizes are held in tenths of a French. */
const TENTHS = 10;
const MOST_KINDS = 1000;
