/**
 * Our reader of workbooks against @e965/xlsx (the community edition of SheetJS), cell by cell: the whole table as that
 * library holds it, with the look of dates and of percent by its own formats and its own calendar.
 */
import { read, SSF, utils, write, type CellObject, type WorkSheet } from "@e965/xlsx";
import { fileOfBytes, openSheet } from "../../../src/spreadsheet/index.ts";
import { partsOfBook, rowOfTexts, zipOfParts } from "../../../test/zip-of-parts.ts";
import { makeYear } from "../../../test/specification/spreadsheet-year.ts";
import { seededNumbers } from "../../by-hand/seeded-numbers.ts";
import { checkAgainst } from "../../check.ts";

const FORMATS = [
  "General",
  "0.00",
  "#,##0",
  "0%",
  "0.00%",
  "yyyy-mm-dd",
  "dd/mm/yyyy",
  "d-mmm-yy",
  "dd/mm/yyyy hh:mm",
  "m/d/yy",
  '0" mm"',
  "[Red]0.0",
];
const WORDS = [
  "L",
  "basilic",
  "Chêne",
  "東京 ward",
  "a & b < c",
  ' "quoted" ',
  "=1+1",
  "line\nbreak",
  "__proto__",
  "😀",
];

type Table = ReadonlyMap<string, string>;

/** A table by place, as the other library reads it. */
function theirTable(bytes: Uint8Array): Table {
  const book = read(bytes, { type: "array", dense: true, cellNF: true, cellDates: false, cellFormula: true });
  const is1904 = book.Workbook?.WBProps?.date1904 === true;
  const rows = book.Sheets[book.SheetNames[0] as string]?.["!data"] ?? [];
  const table = new Map<string, string>();
  for (const [row, cells] of rows.entries())
    for (const [at, cell] of (cells ?? []).entries()) {
      const text = cell ? theirText(cell, is1904) : "";
      if (text !== "") table.set(`${row + 1},${at}`, text);
    }
  return table;
}

function theirText({ t, v, z }: CellObject, is1904: boolean): string {
  if (v === undefined) return "";
  if (t === "b") return v ? "yes" : "no";
  if (t === "e") return "#error";
  if (t !== "n" || typeof v !== "number") return String(v);
  const format = typeof z === "string" ? z : "General";
  if (SSF.is_date(format)) {
    const { y, m, d, H, M } = SSF.parse_date_code(v, { date1904: is1904 });
    const two = (part: number) => String(part).padStart(2, "0");
    return `${y}-${two(m)}-${two(d)}${H + M === 0 ? "" : ` ${two(H)}:${two(M)}`}`;
  }
  // their own text of a share, with more decimals than any generated share has
  return format.includes("%") ? `${Number(SSF.format("0.0000000000%", v).replace("%", ""))} %` : String(v);
}

async function ourTable(bytes: Uint8Array): Promise<Table> {
  const sheet = await openSheet(fileOfBytes("reference.xlsx", bytes), { headerRow: 1 });
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  const table = new Map<string, string>(sheet.headers.map((name, at) => [`1,${at}`, name]));
  for await (const { rows } of sheet.rows())
    for (const { row, cells } of rows)
      for (const [at, text] of cells.entries()) if (text !== "") table.set(`${row},${at}`, text);
  return table;
}

/** A table of every type and look, with gaps, at whole minutes. */
function generated(seed: number): Uint8Array {
  const { share, whole } = seededNumbers(seed);
  const sheet: WorkSheet = {};
  const width = whole(3, 20);
  const rows = whole(20, 300);
  for (let at = 0; at < width; at += 1) sheet[utils.encode_cell({ r: 0, c: at })] = { t: "s", v: `head ${at}` };
  for (let row = 1; row <= rows; row += 1)
    for (let at = 0; at < width; at += 1) {
      if (share() < 0.2) continue;
      sheet[utils.encode_cell({ r: row, c: at })] = cellOf(whole, share);
    }
  sheet["!ref"] = utils.encode_range({ s: { r: 0, c: 0 }, e: { r: rows, c: width - 1 } });
  const book = utils.book_new(sheet, "Lines");
  book.Workbook = { WBProps: { date1904: seed % 2 === 0 } };
  return new Uint8Array(
    write(book, { type: "array", bookType: "xlsx", compression: true, bookSST: seed % 3 !== 0 }) as ArrayBuffer,
  );
}

function cellOf(whole: (from: number, to: number) => number, share: () => number): CellObject {
  switch (whole(0, 6)) {
    case 0:
      return { t: "s", v: WORDS[whole(0, WORDS.length - 1)] as string };
    case 1:
      return { t: "b", v: share() < 0.5 };
    case 2:
      return { t: "e", v: 0x2a };
    case 3:
      return { t: "n", v: whole(1, 9) / 8, f: "A1/8" };
    case 4:
      return { t: "n", v: share() * 10 ** whole(-8, 15) };
    case 5:
      return { t: "n", v: whole(61, 60_000) + whole(0, 95) / 96, z: FORMATS[whole(5, 9)] as string };
    default:
      return { t: "n", v: whole(0, 999) / 1000, z: FORMATS[whole(0, FORMATS.length - 1) % 5] as string };
  }
}

const HEAD = rowOfTexts(1, ["MRN", "Date placed", "c"]);
const sheetXml = (rows: string) => `<sheetData>${HEAD}${rows}</sheetData>`;
const styles =
  '<numFmts><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd;@"/><numFmt numFmtId="165" formatCode="0.0%"/></numFmts>' +
  '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="10"/></cellXfs>';
const texts =
  "<si><t>plain</t></si><si><r><t>left </t></r><r><t>arm</t></r></si><si><t>a_x000A_b</t></si>" +
  '<si><t xml:space="preserve"> kept </t></si><si><t>A &amp; &lt;B&gt; &#233;</t></si>';
/** Workbooks as odd programs write them, as far as the other library reads such ones too. */
const ODD: readonly (readonly [string, Parameters<typeof partsOfBook>[0]])[] = [
  [
    "shared and rich texts",
    {
      texts,
      sheets: {
        a: sheetXml(
          '<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2" t="s"><v>1</v></c><c r="C2" t="s"><v>2</v></c></row><row r="3"><c r="A3" t="s"><v>3</v></c><c r="B3" t="s"><v>4</v></c></row>',
        ),
      },
    },
  ],
  [
    "dates of 1900 and percent",
    {
      styles,
      sheets: {
        a: sheetXml(
          '<row r="2"><c r="A2" s="1"><v>45658</v></c><c r="B2" s="2"><v>45658.25</v></c><c r="C2" s="3"><v>0.455</v></c></row><row r="3"><c r="A3" s="4"><v>1.2</v></c></row>',
        ),
      },
    },
  ],
  [
    "dates of 1904",
    {
      styles,
      bookPr: '<workbookPr date1904="1"/>',
      sheets: { a: sheetXml('<row r="2"><c r="A2" s="1"><v>44196</v></c><c r="B2" s="2"><v>1.5</v></c></row>') },
    },
  ],
  [
    "gaps and far rows",
    {
      sheets: {
        a: sheetXml('<row r="2"><c r="C2"><v>5</v></c></row><row r="9000"><c r="B9000" t="str"><v>far</v></c></row>'),
      },
    },
  ],
  [
    "formulas of every kind",
    {
      sheets: {
        a: sheetXml(
          '<row r="2"><c r="A2"><f>1+1</f><v>2</v></c><c r="B2" t="str"><f t="shared" ref="B2:B3" si="0">A2&amp;"x"</f><v>2x</v></c><c r="C2" t="b"><f>TRUE</f><v>1</v></c></row><row r="3"><c r="A3" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="B3" t="str"><f t="shared" si="0"/><v>x</v></c></row>',
        ),
      },
    },
  ],
  [
    "numbers as programs write them",
    {
      sheets: {
        a: sheetXml(
          '<row r="2"><c r="A2"><v>1E-7</v></c><c r="B2"><v>0.1000000000000001</v></c><c r="C2"><v>123456789012345680000</v></c></row><row r="3"><c r="A3"><v>-0.5</v></c><c r="B3"><v>007</v></c><c r="C3"><v>1.0</v></c></row>',
        ),
      },
    },
  ],
];

const books = [
  ...Array.from({ length: 30 }, (_, at) => [`generated ${at + 1}`, generated(at + 1)] as const),
  ...Array.from({ length: 20 }, (_, at) => makeYear(at))
    .filter(({ house }) => house.encoding.startsWith("XLSX"))
    .map(({ name, bytes }) => [name, bytes] as const),
  ...ODD.map(([name, book]) => [name, zipOfParts(partsOfBook(book))] as const),
];
const readings = await Promise.all(
  books.map(async ([name, bytes]) => [name, await ourTable(bytes), theirTable(bytes)] as const),
);

checkAgainst(
  {
    quantity: "Cells of workbooks, read as a stream",
    unit: "cells",
    source: "@e965/xlsx 0.20.3, whole workbooks",
    kind: "independent",
    tolerance: 0,
    comparisons: books.length * 2,
  },
  (compare) => {
    for (const [name, ours, theirs] of readings) {
      const differing = [...theirs].filter(([place, text]) => ours.get(place) !== text);
      const first = differing[0];
      compare(`${name}, cells in all`, ours.size, theirs.size);
      compare(
        `${name}, cells alike${first ? ` (${first[0]}: ${JSON.stringify(first[1])}, ours ${JSON.stringify(ours.get(first[0]))})` : ""}`,
        theirs.size - differing.length,
        theirs.size,
      );
    }
  },
);
