import type { LineColumn, LotRow } from "../audit/index.ts";
import { localDate, type Moment } from "../core/dwell/index.ts";
import { lotKey } from "../register/index.ts";
import { readCsvTable } from "./csv-table.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { readLineCell } from "./line-cell.ts";
import type { Faults } from "./read-json.ts";

export type LotTableReading = { readonly kind: "lots"; readonly lots: readonly LotRow[] } | Faults;

const LOT_COLUMNS: readonly LineColumn[] = [
  { name: "lot_key", kind: "key", must: true, what: "The key that lines of the lot carry" },
  { name: "expires_on", kind: "moment", what: "Last day it may be used" },
  { name: "received", kind: "whole", most: 1_000_000, must: true, what: "Pieces received" },
  { name: "discarded", kind: "whole", most: 1_000_000, what: "Pieces thrown away; none when empty" },
  { name: "recalled", kind: "yes-no", must: true, what: "Whether it was called back" },
];
const LARGEST_FILE = 10_000_000;

/**
 * Reads a table of lots from CSV, to stand beside a line table: columns in any order, every fault of every row told, and
 * nothing taken while there is one. Whether a lot was called back must be said: an empty cell is never "no".
 * Format: RFC 4180 with a header row. Example row: L67399,2026-02-28,40,1,no
 */
export function readLotTable(text: string): LotTableReading {
  const faults: Fault[] = [];
  const fault = (path: string, code: Fault["code"], found: unknown, rule: string) =>
    faults.push({ path, code, found: shown(found), rule });
  const csv = readCsvTable(
    text,
    LOT_COLUMNS,
    { largest: LARGEST_FILE, largestWords: "10 000 000", eachRow: "one row for each lot" },
    fault,
  );
  if (!csv) return { kind: "faults", faults };
  const { names, body } = csv;
  const seen = new Map<string, number>();
  const lots = body.flatMap((cells, index): LotRow[] => {
    const at = `row ${index + 2}`;
    const before = faults.length;
    if (cells.length !== names.length) {
      fault(at, "wrong-type", `${cells.length} fields`, `${names.length} fields, as the first row names`);
      return [];
    }
    const cellOf = (name: string): unknown => {
      const column = LOT_COLUMNS.find((one) => one.name === name) as LineColumn;
      const cell = readLineCell(cells[names.indexOf(name)] ?? "", column);
      if (cell.kind === "fault") fault(`${at}, ${name}`, cell.code, cell.found, cell.rule);
      if (cell.kind === "absent" && column.must) fault(`${at}, ${name}`, "missing-field", cell.why, column.what);
      return cell.kind === "value" ? cell.value : undefined;
    };
    const [key, expires, received, discarded, recalled] = LOT_COLUMNS.map(({ name }) => cellOf(name));
    for (const [place, name] of names.entries()) faults.push(...hiddenSigns(cells[place], `${at}, ${name}`));
    if (faults.length > before) return [];
    // as a line's lot is looked for: O is 0, I and L are 1
    const sticker = lotKey(key as string);
    const first = seen.get(sticker);
    if (first !== undefined) fault(`${at}, lot_key`, "twice", key, `one row for one lot (see row ${first})`);
    seen.set(sticker, index + 2);
    return [
      {
        key: key as string,
        expiresOn: expires === undefined ? undefined : localDate(expires as Moment),
        received: received as number,
        discarded: (discarded ?? 0) as number,
        recalled: recalled as boolean,
      },
    ];
  });
  return faults.length > 0 ? { kind: "faults", faults } : { kind: "lots", lots };
}
