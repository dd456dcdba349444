import type { CivilDate } from "../../core/calendar/index.ts";
import type { SheetLimits } from "../../policy/index.ts";
import { Refused, type CancelSign, type Refusal, type Sheet, type SheetRow } from "../file/index.ts";
import { numberCarrier, type FieldName, type Matching } from "../match/index.ts";
import { cellPlace } from "../workbook/cell-place.ts";
import { doubtLedger } from "./doubt-ledger.ts";
import { inRowOrder } from "./in-row-order.ts";
import { keyNumber, lineLedger } from "./line-ledger.ts";
import { readRow, rowReader, type RowReader, type SheetLine } from "./read-row.ts";
import type { RowFault } from "./row-fault.ts";

export interface Reading {
  readonly matching: Matching;
  readonly limits: SheetLimits;
  /** Later than this nothing can have happened. */
  readonly today: CivilDate;
  readonly cancel?: CancelSign;
  /** Each row by itself: nothing is held against the other rows, and nothing of a row is kept. */
  readonly alone?: boolean;
}

/** A piece of the reading, in the order of the file; the faults between rows come last, each made as it is asked for. */
export type RowsRead =
  | {
      readonly kind: "rows";
      readonly lines: readonly SheetLine[];
      readonly faults: readonly RowFault[];
      readonly share: number;
      readonly rowsRead: number;
      /** The last row there was, as the file counts. */
      readonly lastRow: number;
    }
  | {
      readonly kind: "between rows";
      /** May be asked for again and again. */
      readonly faults: Iterable<RowFault>;
      readonly rowsRead: number;
      readonly fingerprint: number;
    }
  | { readonly kind: "refused"; readonly refusal: Refusal };

/** Reads every row as the matching says, in bounded memory, with its progress; a cancelled reading ends in a refusal. */
export async function* readRows(sheet: Sheet, reading: Reading): AsyncGenerator<RowsRead> {
  const { matching, limits, today, cancel } = reading;
  const reader = rowReader(sheet.headers, matching, limits, today);
  const ledgers = reading.alone === true ? undefined : { lines: lineLedger(), doubts: doubtLedger(limits) };
  const headerOf = (field: FieldName) => reader.columns.find((one) => one.field === field)?.match.header ?? "";
  const carried = numberCarrier(reader.columns);
  let rowsRead = 0;
  let lastRow = 0;
  let fingerprint = 0;
  try {
    for await (const batch of sheet.rows(cancel)) {
      const lines: SheetLine[] = [];
      const faults: RowFault[] = [];
      for (const given of batch.rows) {
        const { row, from } = carried(given);
        if (from !== undefined) faults.push(carriedFault(row, from, reader));
        const read = readRow(reader, row);
        for (const fault of read.faults) faults.push(fault);
        fingerprint = (fingerprint * 31 + keyNumber(given.cells.join("\u001F"))) % 9_007_199_254_740_881;
        if (!read.line) continue;
        lines.push(read.line);
        ledgers?.lines.add(read.line);
        ledgers?.doubts.add(read.line);
      }
      rowsRead += batch.rows.length;
      for (const { row, found } of batch.merged ?? [])
        if (!carriesOver(found, reader))
          faults.push({ row, column: "", field: undefined, code: "merged cells", found, against: "" });
      const share = batch.bytesInAll > 0 ? batch.bytesRead / batch.bytesInAll : 0;
      lastRow = batch.rows.at(-1)?.row ?? lastRow;
      yield { kind: "rows", lines, faults, rowsRead, share, lastRow };
    }
    const between = {
      [Symbol.iterator]: () =>
        inRowOrder(ledgers ? [ledgers.lines.faults(), ledgers.doubts.faults(headerOf)] : [], ({ row }) => row),
    };
    yield { kind: "between rows", faults: between, rowsRead, fingerprint };
  } catch (fault) {
    if (!(fault instanceof Refused)) throw fault;
    yield { kind: "refused", refusal: fault.refusal };
  }
}

/** Whether merged cells are those of a number that is carried down: then each row of them is told by itself. */
function carriesOver(range: string, { columns }: RowReader): boolean {
  const [first, last] = range.split(":").map(cellPlace);
  return columns.some(
    ({ field, at, match }) =>
      field === "patient" &&
      match.withoutNumber === "the number above" &&
      first?.column === at + 1 &&
      last?.column === at + 1,
  );
}

function carriedFault({ row, cells }: SheetRow, from: number, { columns }: RowReader): RowFault {
  const patient = columns.find(({ field }) => field === "patient");
  return {
    row,
    column: patient?.match.header ?? "",
    field: "patient",
    code: "number carried down",
    found: cells[patient?.at ?? 0] ?? "",
    against: `row ${from}`,
  };
}
