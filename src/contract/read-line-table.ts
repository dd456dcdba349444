import { LINE_COLUMNS, type AuditTable, type LineColumn } from "../audit/index.ts";
import type { Moment } from "../core/dwell/index.ts";
import { readCsvTable } from "./csv-table.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { lineRowFrom, referralRowFrom, wardMonthFrom } from "./line-cells.ts";
import { readLineCell, type LineCell } from "./line-cell.ts";
import type { Faults } from "./read-json.ts";

export type LineTableReading = { readonly kind: "table"; readonly table: AuditTable } | Faults;

/** About a million rows; the page and the importer stream, this reads at once. */
const LARGEST_FILE = 400_000_000;
/** How often it is told how far the reading is. */
const ROWS_BETWEEN = 2_000;
const BY_NAME: ReadonlyMap<string, LineColumn> = new Map(LINE_COLUMNS.map((column) => [column.name, column]));

/** What each kind of row is made into. */
const OF_KIND = { line: lineRowFrom, referral: referralRowFrom, "ward month": wardMonthFrom } as const;

/**
 * Reads the line table from CSV in its own layout (docs/reference/line-table.md). Columns may stand in any order and
 * may be left out; every fault of every row is told, and while there is one nothing is taken. `progress` is told the share
 * of the rows that is read.
 * Format: RFC 4180 with a header row; decimal comma or point.
 */
export function readLineTable(
  text: string,
  asOf: Moment,
  progress: (share: number) => void = () => undefined,
): LineTableReading {
  const faults: Fault[] = [];
  const fault = (path: string, code: Fault["code"], found: unknown, rule: string) =>
    faults.push({ path, code, found: shown(found), rule });
  const csv = readCsvTable(
    text,
    LINE_COLUMNS,
    { largest: LARGEST_FILE, largestWords: "400 000 000", eachRow: "one row for each line" },
    fault,
  );
  if (!csv) return { kind: "faults", faults };
  const { names, body } = csv;
  const columns = names.map((name) => BY_NAME.get(name) as LineColumn);
  const lines: AuditTable["lines"][number][] = [];
  const referrals: AuditTable["referrals"][number][] = [];
  const wardMonths: NonNullable<AuditTable["wardMonths"]>[number][] = [];
  const seen = new Map<string, number>();
  for (const [index, cells] of body.entries()) {
    if (index % ROWS_BETWEEN === 0) progress(index / body.length);
    const at = `row ${index + 2}`;
    if (cells.length !== columns.length) {
      fault(at, "wrong-type", `${cells.length} fields`, `${columns.length} fields, as the first row names`);
      continue;
    }
    const read: Record<string, LineCell> = {};
    const before = faults.length;
    for (const [place, column] of columns.entries()) {
      const cell = readLineCell(cells[place] as string, column);
      if (cell.kind === "fault") fault(`${at}, ${column.name}`, cell.code, cell.found, cell.rule);
      else read[column.name] = cell;
      faults.push(...hiddenSigns(cells[place], `${at}, ${column.name}`));
    }
    if (faults.length > before) continue;
    const kind = read["row"]?.kind === "value" ? (read["row"].value as keyof typeof OF_KIND) : "line";
    const made = OF_KIND[kind](read, asOf);
    if (made.kind === "fault") {
      fault(`${at}, ${made.column}`, made.code, made.found, made.rule);
      continue;
    }
    const key = `${made.kind} ${made.row.key}`;
    if (seen.has(key))
      fault(`${at}, line_key`, "twice", made.row.key, `one row for one line (see row ${seen.get(key)})`);
    seen.set(key, index + 2);
    if (made.kind === "line") lines.push(made.row);
    else if (made.kind === "referral") referrals.push(made.row);
    else wardMonths.push(made.row);
  }
  if (faults.length > 0) return { kind: "faults", faults };
  const table = { asOf, lines, referrals, ...(wardMonths.length > 0 ? { wardMonths } : {}) };
  return { kind: "table", table };
}
