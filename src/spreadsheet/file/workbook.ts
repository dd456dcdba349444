import { read, SSF, type CellObject } from "@e965/xlsx";
import { dateTextOfSerial, type DateSystem } from "./date-serial.ts";
import { FILE_LIMITS } from "./limits.ts";
import { plainZip } from "./plain-zip.ts";
import { Refused } from "./refusal.ts";
import type { SheetRow } from "./sheet-file.ts";
import { unpackPart } from "./unpack-part.ts";
import { zipDirectory } from "./zip-directory.ts";

export interface Workbook {
  readonly dateSystem: DateSystem;
  readonly sheets: readonly { readonly name: string; readonly rows: readonly SheetRow[] }[];
}

/** The parts a table of text, numbers and dates needs; pictures, queries, comments and the rest are never opened. */
const WANTED =
  /^(\[Content_Types\]\.xml|_rels\/\.rels|xl\/workbook\.xml|xl\/_rels\/workbook\.xml\.rels|xl\/sharedStrings\.xml|xl\/styles\.xml|xl\/worksheets\/[^/]+\.xml)$/i;

/**
 * Reads a workbook whose zip has been looked at first. Formulas are not worked out: the value last shown is taken and
 * its place is told. Dates become text by the workbook's own system of 1900 or 1904.
 */
export async function readWorkbook(bytes: Uint8Array): Promise<Workbook> {
  const parts = zipDirectory(bytes);
  const named = (pattern: RegExp) => parts.find(({ name }) => pattern.test(name));
  if (named(/vbaProject\.bin$|(^|\/)macrosheets\//i)) throw new Refused("macro-workbook");
  if (named(/(^|\/)externalLinks\//i)) throw new Refused("external-links");
  if (!named(/^xl\/workbook\.xml$/i)) throw new Refused("not-a-workbook", parts[0]?.name ?? "an empty zip");
  const wanted: { readonly name: string; readonly bytes: Uint8Array }[] = [];
  const seen = new Set<string>();
  for (const part of parts) {
    if (!WANTED.test(part.name)) continue;
    if (seen.has(part.name.toLowerCase())) throw new Refused("zip-damaged", `${part.name} stands twice`);
    seen.add(part.name.toLowerCase());
    const unpacked = await unpackPart(bytes, part);
    if (holds(unpacked, "<!DOCTYPE") || holds(unpacked, "<!ENTITY"))
      throw new Refused("zip-bomb", "entities of its own");
    if (holds(unpacked, "sheet.macroEnabled.main+xml")) throw new Refused("macro-workbook");
    wanted.push({ name: part.name, bytes: unpacked });
  }
  try {
    return sheetsOf(plainZip(wanted.map((part) => (/content_types/i.test(part.name) ? onlyHeld(part, seen) : part))));
  } catch (fault) {
    if (fault instanceof Refused) throw fault;
    throw new Refused("not-a-workbook", fault instanceof Error ? fault.message : "");
  }
}

/** The list of contents without the parts that were left behind, or the reader would look for them. */
function onlyHeld(
  part: { readonly name: string; readonly bytes: Uint8Array },
  held: ReadonlySet<string>,
): { readonly name: string; readonly bytes: Uint8Array } {
  const text = Array.from(part.bytes.subarray(0, 1_000_000), (byte) => String.fromCharCode(byte)).join("");
  const kept = text.replaceAll(/<Override\b[^>]*?PartName="\/?([^"]*)"[^>]*?>/gi, (element, name: string) =>
    held.has(name.toLowerCase()) ? element : "",
  );
  return { name: part.name, bytes: Uint8Array.from(kept, (sign) => sign.charCodeAt(0)) };
}

function sheetsOf(zip: Uint8Array): Workbook {
  const book = read(zip, {
    type: "array",
    dense: true,
    cellHTML: false,
    cellText: false,
    cellNF: true,
    cellFormula: true,
    cellDates: false,
  });
  const dateSystem: DateSystem = book.Workbook?.WBProps?.date1904 ? 1904 : 1900;
  const sheets = book.SheetNames.map((name) => {
    const data = book.Sheets[name]?.["!data"] ?? [];
    const rows: SheetRow[] = [];
    // a row numbered far beyond a sheet's last would be walked to through nothing
    if (data.length > FILE_LIMITS.lastRow) throw new Refused("not-a-table", data.length);
    for (let at = 0; at < data.length; at += 1) {
      const row = data[at];
      if (!row || row.length === 0) continue;
      if (row.length > FILE_LIMITS.columns) throw new Refused("too-many-columns", row.length, at + 1);
      const formulaAt: number[] = [];
      const cells = Array.from(row, (cell: CellObject | undefined, place) => {
        if (!cell) return "";
        if (cell.f !== undefined) formulaAt.push(place);
        const text = textOf(cell, dateSystem);
        if (text.length > FILE_LIMITS.cellCharacters)
          throw new Refused("cell-too-large", `${text.length} characters`, at + 1);
        return text;
      });
      rows.push({ row: at + 1, cells, ...(formulaAt.length > 0 ? { formulaAt } : {}) });
      // a row is held once, as cells or as text
      data[at] = [];
    }
    return { name, rows };
  });
  return { dateSystem, sheets };
}

function textOf(cell: CellObject, system: DateSystem): string {
  if (cell.v === undefined || cell.v === null) return "";
  if (cell.t === "n" && typeof cell.v === "number") {
    if (typeof cell.z === "string" && SSF.is_date(cell.z)) return dateTextOfSerial(cell.v, system) ?? String(cell.v);
    return String(cell.v);
  }
  if (cell.t === "b") return cell.v ? "yes" : "no";
  if (cell.t === "e") return "#error";
  return String(cell.v);
}

/** Whether plain letters stand anywhere in the bytes; a scan, so that no text of the whole part is made. */
function holds(bytes: Uint8Array, letters: string): boolean {
  const sought = Uint8Array.from(letters, (sign) => sign.charCodeAt(0));
  const first = sought[0] as number;
  for (let at = bytes.indexOf(first); at !== -1; at = bytes.indexOf(first, at + 1))
    if (sought.every((byte, index) => bytes[at + index] === byte)) return true;
  return false;
}
