import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import type { FieldName } from "../match/index.ts";
import { GrowingList } from "./grown.ts";
import { inRowOrder } from "./in-row-order.ts";
import { keyNumber, patientKey } from "./line-ledger.ts";
import { likenessOf, nearAtOnce } from "./near-at-once.ts";
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

/** What a row that is lawful by itself looks like beside all the others; 44 bytes of each line are kept. */
export interface DoubtLedger {
  readonly add: (line: SheetLine) => void;
  /** Every doubt in the order of the rows, made as it is asked for; a row has at most one of each rule. */
  readonly faults: (headerOf: (field: FieldName) => string) => Iterable<RowFault>;
}

export function doubtLedger(limits: SheetLimits): DoubtLedger {
  const whole = () => new GrowingList(new Int32Array(1024));
  const wide = () => new GrowingList(new Float64Array(1024));
  const [rows, placed, removed, born] = [whole(), whole(), whole(), whole()];
  const [initials, catheter, sizes] = [whole(), whole(), whole()];
  const [numbers, likeness] = [wide(), wide()];
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
      const letters = (line.words.initials ?? "").toLowerCase().replaceAll(/[^\p{L}]/gu, "");
      rows.add(line.row);
      numbers.add(packNumber(patientKey(line.patient)));
      placed.add(dayNumber(line.placedOn));
      removed.add(dayOr(line.dates.removedOn));
      born.add(dayOr(line.dates.birthDate));
      initials.add(letters === "" ? 0 : keyNumber(letters) | 0);
      likeness.add(likenessOf(line, letters));
      catheter.add(kindOf(line.words.catheter));
      sizes.add(Math.round((line.numbers.sizeFr ?? 0) * TENTHS));
    },
    faults: function* faults(headerOf) {
      const people: People = { numbers, born, initials, noDay: NO_DAY };
      const rules: readonly Iterable<Doubt>[] = [
        placingsOutOfOrder(placed, limits.orderDays),
        staysOutOfKeeping(placed, removed, NO_DAY),
        nearNumbers(people),
        nearAtOnce({ ...people, placed, removed, likeness }),
        numbersOfTwoPeople(people),
        checkDigitsThatFail(people, limits.checkDigitShare),
        kinds.size > MOST_KINDS ? [] : sizesOfNoOther(catheter, sizes, limits.kindRows, TENTHS),
      ];
      for (const { at, code, field, found, against } of inRowOrder(rules, (doubt) => doubt.at))
        yield {
          row: rows.at(at),
          column: headerOf(field),
          field,
          code,
          found,
          against: typeof against === "number" ? `row ${rows.at(against)}` : against,
        };
    },
  };
}

const NO_DAY = -2_147_483_648;
/** Sizes are held in tenths of a French. */
const TENTHS = 10;
const MOST_KINDS = 1000;
