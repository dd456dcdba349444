import { describe, expect, test } from "vitest";
import { crc32 as platformCrc } from "node:zlib";
import { partsOfBook, rowOfTexts, zipOfParts } from "../../../test/zip-of-parts.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../../policy/index.ts";
import {
  fileOfBytes,
  openSheet,
  previewFaults,
  suggestMatching,
  type OpenChoice,
  type Sheet,
  type SheetRow,
} from "../index.ts";
import { cellPlace } from "./cell-place.ts";
import { crc32 } from "./crc-32.ts";
import { styleOfFormat } from "./number-style.ts";

const HEAD = rowOfTexts(1, ["MRN", "Date placed"]);
type Book = Parameters<typeof partsOfBook>[0];

const opened = (book: Book, choice?: OpenChoice) =>
  openSheet(fileOfBytes("odd.xlsx", zipOfParts(partsOfBook(book))), choice);

async function sheetOf(book: Book): Promise<Sheet> {
  const sheet = await opened(book);
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  return sheet;
}

async function rowsOf(sheet: Sheet): Promise<readonly SheetRow[]> {
  const rows: SheetRow[] = [];
  for await (const batch of sheet.rows()) rows.push(...batch.rows);
  return rows;
}

const cellsOf = async (cells: string, book: Partial<Book> = {}) =>
  (
    await rowsOf(
      await sheetOf({ sheets: { Lines: `<sheetData>${HEAD}<row r="2">${cells}</row></sheetData>` }, ...book }),
    )
  )[0];

describe("cells by their type (ECMA-376 part 1, 18.18.11)", () => {
  test("shared, inline, worked out, yes and no, error, date and number", async () => {
    const row = await cellsOf(
      '<c r="A2" t="s"><v>1</v></c><c r="B2" t="inlineStr"><is><t>in</t></is></c><c r="C2" t="str"><f>A1</f><v>out</v></c>' +
        '<c r="D2" t="b"><v>1</v></c><c r="E2" t="b"><v>0</v></c><c r="F2" t="e"><v>#N/A</v></c>' +
        '<c r="G2" t="d"><v>2025-03-04T09:30:00</v></c><c r="H2"><v>1.50</v></c><c r="I2"><v>1E3</v></c>',
      { texts: "<si><t>no</t></si><si><t>shared</t></si>" },
    );
    expect(row?.cells).toEqual(["shared", "in", "out", "yes", "no", "#error", "2025-03-04 09:30", "1.5", "1000"]);
    expect(row?.formulaAt).toEqual([2]);
  });

  test("rich text is joined, spoken signs are left out, signs that XML cannot hold are read", async () => {
    const row = await cellsOf('<c t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="s"><v>2</v></c><c t="s"><v>3</v></c>', {
      texts:
        "<si><r><t>left </t></r><r><rPr/><t>arm</t></r></si><si><t>東京</t><rPh sb='0' eb='2'><t>トウキョウ</t></rPh></si>" +
        "<si><t>a_x000A_b &amp; c &lt;d&gt; &#x41;&#66;</t></si><si><t><![CDATA[<raw> & ]]>end</t></si>",
    });
    expect(row?.cells).toEqual(["left arm", "東京", "a\nb & c <d> AB", "<raw> & end"]);
  });

  test("a share in the look of percent says so, and is no share of a percent", async () => {
    const styles =
      '<numFmts><numFmt numFmtId="170" formatCode="0.0%"/><numFmt numFmtId="171" formatCode="0.0&quot;%&quot;"/></numFmts>' +
      '<cellXfs><xf numFmtId="0"/><xf numFmtId="9"/><xf numFmtId="170"/><xf numFmtId="171"/></cellXfs>';
    const cell = (style: number) => `<c s="${style}"><v>0.45</v></c>`;
    const row = await cellsOf([0, 1, 2, 3].map(cell).join(""), { styles });
    expect(row?.cells).toEqual(["0.45", "45 %", "45 %", "0.45"]);
    expect((await cellsOf('<c s="1"><v>0.29</v></c>', { styles }))?.cells).toEqual(["29 %"]);
  });

  // Microsoft, "Differences between the 1900 and the 1904 date system": 5 July 1998 is 35981 and 34519 (from memory)
  test("day counts are dates by the workbook's own system", async () => {
    const styles = '<cellXfs><xf numFmtId="14"/><xf numFmtId="22"/></cellXfs>';
    const cells =
      '<c s="0"><v>35981</v></c><c s="1"><v>35981.5</v></c><c s="0"><v>34519</v></c><c s="7"><v>34519</v></c>';
    expect((await cellsOf(cells, { styles }))?.cells).toEqual([
      "1998-07-05",
      "1998-07-05 12:00",
      "1994-07-04",
      "34519",
    ]);
    expect((await cellsOf(cells, { styles, bookPr: '<workbookPr date1904="1"/>' }))?.cells[2]).toBe("1998-07-05");
  });
});

describe("rows as they may stand", () => {
  test("ragged, without names, far apart, and coloured to the last column", async () => {
    const coloured = `<c r="XFD4" s="0"/>`;
    const sheet = await sheetOf({
      sheets: {
        Lines: `<sheetData>${HEAD}<row><c t="str"><v>a</v></c></row><row r="4"><c r="C4" t="str"><v>c</v></c>${coloured}</row>
          <row r="5"/><row r="1048576"><c r="A1048576"><v>9</v></c></row></sheetData>`,
      },
    });
    expect((await rowsOf(sheet)).map(({ row, cells }) => [row, ...cells])).toEqual([
      [2, "a"],
      [4, "", "", "c"],
      [1_048_576, "9"],
    ]);
  });

  test("tags with a prefix, comments, and what other programs add are passed over", async () => {
    const parts = partsOfBook({ sheets: { Lines: "" } }).map((part) =>
      part.name === "xl/worksheets/sheet1.xml"
        ? {
            ...part,
            text: '\uFEFF<?xml version="1.0"?><!-- a > b --><x:worksheet xmlns:x="m"><x:sheetData><x:row r="1"><x:c t="str"><x:v>MRN</x:v></x:c><x:c t="str"><x:v>b</x:v></x:c></x:row><x:row r="2"><!-- <x:c/> --><x:c t = \'str\' note="a > b"><x:v>1</x:v><x:extLst><x:ext><x:v>9</x:v></x:ext></x:extLst></x:c></x:row></x:sheetData><x:extLst><x:sheetData><x:row r="3"/></x:sheetData></x:extLst></x:worksheet>',
          }
        : part,
    );
    const sheet = await openSheet(fileOfBytes("p.xlsx", zipOfParts(parts)));
    if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
    expect((await rowsOf(sheet)).map(({ cells }) => cells)).toEqual([["1"]]);
  });

  test("hidden rows, hidden columns, hidden sheets and merged cells are said and read", async () => {
    const sheet = await sheetOf({
      sheets: {
        Lines: `<cols><col min="2" max="2" hidden="1"/></cols><sheetData>${HEAD}<row r="2" hidden="true"><c><v>1</v></c></row><row r="3"><c><v>2</v></c></row></sheetData>
          <mergeCells count="2"><mergeCell ref="A1:B1"/><mergeCell ref="A3:A9"/></mergeCells>`,
      },
      states: { Lines: "veryHidden" },
    });
    expect([sheet.sheetHidden, sheet.hiddenColumns]).toEqual([true, [1]]);
    const merged: unknown[] = [];
    const hidden: unknown[] = [];
    for await (const batch of sheet.rows()) {
      merged.push(...(batch.merged ?? []));
      hidden.push(...batch.rows.map((row) => row.hidden ?? false));
    }
    expect(hidden).toEqual([true, false]);
    expect(merged).toEqual([{ row: 3, found: "A3:A9" }]);
    const { matching } = suggestMatching(sheet);
    const today = "2026-01-15" as CivilDate;
    const preview = await previewFaults(sheet, { matching, limits: sheetLimitsFrom(defaultPolicyTable), today });
    const told = preview.kind === "preview" ? preview.faults.map(({ row, code, found }) => [row, code, found]) : [];
    expect(told).toContainEqual([2, "hidden row", ""]);
    expect(told).toContainEqual([3, "merged cells", "A3:A9"]);
  });

  test("of several filled sheets one is chosen; empty ones are not offered", async () => {
    const data = (count: number) =>
      `<dimension ref="A1:B${count}"/><sheetData>${HEAD}${rowOfTexts(2, ["1", "2025-01-01"])}</sheetData>`;
    const book: Book = {
      sheets: { Notes: `<sheetData>${HEAD}</sheetData>`, May: data(31), June: data(30) },
      states: { June: "hidden" },
    };
    expect(await opened(book)).toEqual({
      kind: "choose sheet",
      sheets: [
        { name: "May", hidden: false, rows: 31 },
        { name: "June", hidden: true, rows: 30 },
      ],
    });
    expect(await opened(book, { sheetName: "June" })).toMatchObject({
      kind: "sheet",
      sheetName: "June",
      sheetHidden: true,
    });
    expect(await opened(book, { sheetName: "Notes" })).toMatchObject({ refusal: { code: "no-rows" } });
  });

  test("wide records, stored parts and a comment at the end are read", async () => {
    const parts = partsOfBook({ sheets: { Lines: `<sheetData>${HEAD}${rowOfTexts(2, ["7", "x"])}</sheetData>` } });
    for (const [bytes, name] of [
      [
        zipOfParts(
          parts.map((part) => ({ ...part, wide: true })),
          { wideEnd: true },
        ),
        "wide",
      ],
      [zipOfParts(parts.map((part) => ({ ...part, stored: true }))), "stored"],
      [zipOfParts(parts, { comment: "PK\u0005\u0006 made on Monday" }), "comment"],
    ] as const) {
      const sheet = await openSheet(fileOfBytes(name, bytes));
      expect(sheet.kind === "sheet" && (await rowsOf(sheet)).map(({ cells }) => cells), name).toEqual([["7", "x"]]);
    }
  });

  test("XML in UTF-16 is read", async () => {
    const parts = partsOfBook({ sheets: { Lines: `<sheetData>${HEAD}${rowOfTexts(2, ["7", "Chêne"])}</sheetData>` } });
    const wide = parts.map((part) => ({
      ...part,
      text: new Uint8Array(Buffer.from(`\uFEFF${part.text as string}`, "utf16le")),
    }));
    const sheet = await openSheet(fileOfBytes("u16.xlsx", zipOfParts(wide)));
    expect(sheet.kind === "sheet" && (await rowsOf(sheet))[0]?.cells).toEqual(["7", "Chêne"]);
  });
});

test("the check of a part is the platform's own, in one piece or in several", () => {
  // the check value of this polynomial, as catalogues of such checks print it (from memory)
  expect(crc32(new Uint8Array(Buffer.from("123456789")))).toBe(0xcbf43926);
  const bytes = Uint8Array.from({ length: 1000 }, (_, at) => (at * at * 7) % 251);
  for (const cut of [0, 1, 2, 3, 5, 500, 999, 1000])
    expect(crc32(bytes.subarray(cut), crc32(bytes.subarray(0, cut)))).toBe(platformCrc(bytes));
});

test("places of cells and looks of numbers", () => {
  expect([cellPlace("A1"), cellPlace("AA10"), cellPlace("XFD1048576")]).toEqual([
    { column: 1, row: 1 },
    { column: 27, row: 10 },
    { column: 16_384, row: 1_048_576 },
  ]);
  expect(["", "A", "1", "A0", "ABCD1", "A1B", "$A$1", "A-1"].map(cellPlace)).toEqual(Array.from({ length: 8 }));
  // ECMA-376 part 1, 18.8.31 (from memory): letters of the calendar outside of quotes, strokes and brackets
  expect(["yyyy-mm-dd", "[h]:mm", "[$-409]d mmm;@", 'd"."m', "AM/PM h"].map(styleOfFormat)).toEqual(
    Array.from({ length: 5 }, () => "date"),
  );
  expect(["0%", "0.00 %", '0" of "0%', "[Red]0%"].map(styleOfFormat)).toEqual(
    Array.from({ length: 4 }, () => "percent"),
  );
  expect(["General", "0.0", '0" days"', "\\d0", "[Red]0", "#,##0_d", '0"%"'].map(styleOfFormat)).toEqual(
    Array.from({ length: 7 }, () => "number"),
  );
});
