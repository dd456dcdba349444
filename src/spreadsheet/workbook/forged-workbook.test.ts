import { describe, expect, test } from "vitest";
import { partsOfBook, rowOfTexts, zipOfParts, type PartToWrite } from "../../../test/zip-of-parts.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../../policy/index.ts";
import { fileOfBytes, openSheet, previewFaults, suggestMatching, type Sheet } from "../index.ts";

type Book = Parameters<typeof partsOfBook>[0];
const HEAD = rowOfTexts(1, ["MRN", "Date placed", "Ward", "Lumens"]);
const reading = { limits: sheetLimitsFrom(defaultPolicyTable), today: "2026-01-15" as CivilDate };
const opened = (parts: readonly PartToWrite[]) => openSheet(fileOfBytes("forged.xlsx", zipOfParts(parts)));

/** A second row of these cells, which may name the texts "nought" and "one". */
const bookOf = (cells: string): Book => ({
  sheets: { Lines: `<sheetData>${HEAD}<row r="2">${cells}</row></sheetData>` },
  texts: "<si><t>nought</t></si><si><t>one</t></si>",
});
const text = (word: string) => `<c t="inlineStr"><is><t>${word}</t></is></c>`;
const number = (value: string) => `<c><v>${value}</v></c>`;
const line = (mrn: string, rest = "") => `${mrn}${text("2025-01-01")}${rest}`;

async function sheetOf(cells: string): Promise<Sheet> {
  const sheet = await opened(partsOfBook(bookOf(cells)));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  return sheet;
}
async function firstRow(cells: string): Promise<readonly string[]> {
  for await (const { rows } of (await sheetOf(cells)).rows()) for (const row of rows) return row.cells;
  return [];
}
async function told(cells: string): Promise<readonly (readonly unknown[])[]> {
  const sheet = await sheetOf(cells);
  const preview = await previewFaults(sheet, { ...reading, matching: suggestMatching(sheet).matching });
  return preview.kind === "preview" ? preview.faults.map(({ code, column, found }) => [code, column, found]) : [];
}

describe("numbers that two readers could read as two", () => {
  // W3C XML Schema part 2, 3.2.5 (double): digits, a point, an exponent; a machine's own reader takes more (from memory)
  test("what is no number of the standard stays as it is written", async () => {
    expect(await firstRow(["0x1F", "0b11", "Infinity", "1_000", "1e999"].map(number).join(""))).toEqual([
      "0x1F",
      "0b11",
      "Infinity",
      "1_000",
      "1e999",
    ]);
    expect(await firstRow(["1E3", " 12 ", "-.5", "+7."].map(number).join(""))).toEqual(["1000", "12", "-0.5", "7"]);
  });

  // IEEE 754: whole numbers are exact up to 2^53, 9007199254740992
  test("two patients' numbers of 16 digits stay two", async () => {
    expect(await firstRow(number("9007199254740993"))).toEqual(["9007199254740993"]);
    expect(await told(line(number("1.2345678901234567E19")))).toEqual([
      ["number in powers", "MRN", "1.2345678901234567E19"],
    ]);
    expect(await told(line(text("4.00123E+14")))).toEqual([["number in powers", "MRN", "4.00123E+14"]]);
    expect(await told(line(text("12E34")))).toEqual([]);
  });

  test.each([
    ["a text of number one and a half", '<c t="s"><v>1.5</v></c>'],
    ["a text of no number", '<c t="s"><v> </v></c>'],
    ["a text by a number in another base", '<c t="s"><v>0x1</v></c>'],
    ["two values in one cell", "<c><v>1</v><v>2</v></c>"],
    ["a value in a value", "<c><v>1<v>2</v></v></c>"],
    // ECMA-376 part 1, 18.3.1.4: an inline text stands in is, any other value in v (from memory)
    ["a value in a cell of an inline text", '<c t="inlineStr"><v>4001</v></c>'],
    ["an inline text in a cell of a number", "<c><is><t>4001</t></is></c>"],
    ["both in one cell", '<c t="inlineStr"><is><t>1</t></is><v>2</v></c>'],
    // Unicode 15, 3.9 D75: half of a pair alone cannot be written as UTF-8; two patients so named would become one
    ["half a character as an inline text", text("p_xD800_")],
    ["two texts in one cell", '<c t="inlineStr"><is><t>1</t></is><is><t>2</t></is></c>'],
  ])("%s is refused", async (_name, cell) => {
    expect(await opened(partsOfBook(bookOf(line(cell))))).toMatchObject({ refusal: { code: "zip-damaged" } });
  });
});

test("a formula that nobody worked out leaves its value not known, and says so", async () => {
  expect(await told(line(text("1"), `${text("Ash")}<c><f>1+1</f></c>`))).toEqual([
    ["formula not worked out", "Lumens", ""],
  ]);
  // worked out to nothing, as a programme saves a formula that shows nothing
  expect(await told(line(text("1"), `${text("Ash")}<c t="str"><f>""</f><v></v></c>`))).toEqual([]);
});

test("names in any script are values and not gaps", async () => {
  expect(await told(line(text("٤٠٠١"), `${text("Онкология")}${number("2")}`))).toEqual([]);
  const sheet = await sheetOf(line(text("1"), text("東京 NA")));
  const preview = await previewFaults(sheet, { ...reading, matching: suggestMatching(sheet).matching });
  expect(preview).toMatchObject({ kind: "preview", newLines: 1 });
});

describe("lists of sheets and texts that lie", () => {
  const book = partsOfBook(bookOf(line(text("1"))));
  const inBook = (name: string, change: (xml: string) => string) =>
    book.map((part) => (part.name === name ? { ...part, text: change(part.text as string) } : part));
  const sheetTag = (name: string, id: string) => `<sheet name="${name}" sheetId="2" r:id="${id}"/></sheets>`;

  test("a sheet under two names, or two of one name, is refused", async () => {
    for (const [name, id] of [
      ["Again", "s0"],
      ["lines", "s0"],
    ] as const) {
      const forged = inBook("xl/workbook.xml", (xml) => xml.replace("</sheets>", sheetTag(name, id)));
      expect(await opened(forged)).toMatchObject({ refusal: { code: "zip-damaged" } });
    }
  });

  test("a shared text of half a character is refused, and one of both halves is read", async () => {
    const named = (word: string) => inBook("xl/sharedStrings.xml", (xml) => xml.replace("nought", word));
    expect(await opened(named("p_xDC00_"))).toMatchObject({ refusal: { code: "zip-damaged" } });
    expect((await opened(named("p_xD83D__xDE00_"))).kind).toBe("sheet");
  });

  test("a first text that is empty is a text", async () => {
    const forged = inBook("xl/sharedStrings.xml", (xml) => xml.replace("<si>", "<si/><si>"));
    expect((await opened(forged)).kind).toBe("sheet");
  });

  test("a row beyond what a row holds is refused, and a sample holds no more than its limit", async () => {
    // letters that pack badly, so that the size is judged and not the packing
    const wide = (seed: number) =>
      Array.from({ length: 2_000 }, (_, at) => ((at * 7_919 + seed) * 104_729) % 99_991)
        .join(" ")
        .repeat(8);
    const five = Array.from({ length: 5 }, (_, at) => text(wide(at))).join("");
    expect(await opened(partsOfBook(bookOf(five)))).toMatchObject({ refusal: { code: "cell-too-large", row: 2 } });
    const rows = Array.from({ length: 100 }, (_, at) => `<row r="${at + 2}">${line(text(wide(at)))}</row>`).join("");
    const sheet = await opened(partsOfBook({ sheets: { Lines: `<sheetData>${HEAD}${rows}</sheetData>` } }));
    expect(sheet.kind === "sheet" && sheet.sample.length).toBeLessThan(50);
  });
});
