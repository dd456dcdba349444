import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { partsOfBook, rowOfTexts, zipOfParts, type PartToWrite } from "../../../test/zip-of-parts.ts";
import { fileOfBytes, openSheet, type SheetFile } from "../index.ts";
import { XmlReader } from "./xml-reader.ts";

const HEAD = rowOfTexts(1, ["MRN", "Date placed"]);
const cases = Number(process.env["VEINWRIGHT_CASES"] ?? 1) * 200;
const inSheet = (xml: string): readonly PartToWrite[] => partsOfBook({ sheets: { Lines: xml } });
const SHEET = "xl/worksheets/sheet1.xml";
const plain = inSheet(`<sheetData>${HEAD}${rowOfTexts(2, ["1", "2025-01-01"])}</sheetData>`);
const changed = (name: string, change: Partial<PartToWrite>, parts = plain) =>
  parts.map((part) => (part.name === name ? { ...part, ...change } : part));

/** Letters that pack badly, so that it is their number that is judged. */
let state = 1;
const random = Array.from({ length: 100_000 }, () => {
  state = (state * 48_271) % 2_147_483_647;
  return String.fromCharCode(97 + (state % 26));
}).join("");

/** What reading the whole of a file ends in: a refusal's code, or "read". */
async function endOf(bytes: Uint8Array): Promise<string> {
  const sheet = await openSheet(fileOfBytes("hostile.xlsx", bytes));
  if (sheet.kind === "refused") return sheet.refusal.code;
  if (sheet.kind === "choose sheet") return sheet.kind;
  try {
    for await (const _ of sheet.rows());
    return "read";
  } catch (fault) {
    return (fault as { refusal: { code: string } }).refusal.code;
  }
}

const zipped = (parts: readonly PartToWrite[], end?: Parameters<typeof zipOfParts>[1]) => zipOfParts(parts, end);
const row = (cells: string, at = ' r="2"') => zipped(inSheet(`<sheetData>${HEAD}<row${at}>${cells}</row></sheetData>`));
const text = (name: string, xml: string) => zipped(changed(name, { text: xml }));
/** A compound file with one name in the first sector of its directory: [MS-CFB] 2.2 and 2.6.1 (from memory). */
function compound(name: string): Uint8Array {
  const bytes = Buffer.alloc(1536);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  bytes.writeUInt16LE(9, 30);
  bytes.writeUInt32LE(1, 48);
  bytes.write(name, 1024 + 128, "utf16le");
  return new Uint8Array(bytes);
}

describe("workbooks hostile on purpose", () => {
  test.each<[string, Uint8Array, string]>([
    ["a plain one, for comparison", zipped(plain), "read"],
    ["a part that says less than it holds", zipped(changed(SHEET, { saysBytes: 60 })), "zip-bomb"],
    ["a part that says more than it holds", zipped(changed(SHEET, { saysBytes: 9_000 })), "zip-damaged"],
    ["a part whose check does not agree", zipped(changed(SHEET, { saysCrc: 7 })), "zip-damaged"],
    ["a part with two names", zipped(changed(SHEET, { saysName: "xl/worksheets/sheet2.xml" })), "zip-damaged"],
    ["a part twice", zipped([...plain, { name: SHEET.toUpperCase(), text: "x" }]), "zip-damaged"],
    [
      "parts that share bytes",
      zipped([...plain, { name: "xl/worksheets/sheet9.xml", text: "x".repeat(400), sharesWith: SHEET }]),
      "zip-bomb",
    ],
    ["a part behind a password", zipped(changed(SHEET, { flags: 1 })), "zip-encrypted"],
    [
      "a wide list that is not there",
      zipped(plain, { wideEnd: true }).map((byte, at, all) => (at === all.length - 42 ? byte + 1 : byte)),
      "zip-damaged",
    ],
    ["a sheet that is not there", zipped(plain.filter(({ name }) => name !== SHEET)), "zip-damaged"],
    ["a relation that is not there", text("xl/_rels/workbook.xml.rels", "<Relationships/>"), "zip-damaged"],
    ["a text that is not there", row('<c t="s"><v>5</v></c>'), "zip-damaged"],
    ["a text of number minus one", row('<c t="s"><v>-1</v></c>'), "zip-damaged"],
    ["a cell of no known type", row('<c t="zz"><v>5</v></c>'), "zip-damaged"],
    [
      "entities",
      text(SHEET, '<!DOCTYPE a [<!ENTITY b "c">]><worksheet><sheetData/></worksheet>'),
      "definitions-inside",
    ],
    ["entities that nobody defined", row('<c t="str"><v>&b;</v></c>'), "zip-damaged"],
    ["a sign that no text may hold", row('<c t="str"><v>&#0;</v></c>'), "zip-damaged"],
    ["tags that do not pair", text(SHEET, "<worksheet><sheetData></worksheet></sheetData>"), "zip-damaged"],
    ["XML cut off", text(SHEET, `<worksheet><sheetData>${HEAD}${rowOfTexts(2, ["1", "2"])}`), "zip-damaged"],
    ["an attribute without quotes", row("<c t=str><v>1</v></c>"), "zip-damaged"],
    ["an attribute that stands twice", row('<c r="A2" r="B2"><v>1</v></c>'), "zip-damaged"],
    ["tags a thousand deep", row(`<c>${"<a>".repeat(1000)}${"</a>".repeat(1000)}</c>`), "zip-damaged"],
    ["a tag of 10 MB", row(`<c r="A2" note="${random.repeat(100)}"/>`), "cell-too-large"],
    ["a cell of 200,000 characters", row(`<c t="str"><v>${"xy z".repeat(50_000)}</v></c>`), "cell-too-large"],
    [
      "letters that are not UTF-8",
      zipped(changed(SHEET, { text: new Uint8Array([0x3c, 0x61, 0x3e, 0xff, 0xfe, 0x3c]) })),
      "wrong-encoding",
    ],
    [
      "a row that stands twice",
      zipped(inSheet(`<sheetData>${HEAD}${rowOfTexts(2, ["1"])}${rowOfTexts(2, ["1"])}</sheetData>`)),
      "out-of-order",
    ],
    [
      "rows that go back",
      zipped(inSheet(`<sheetData>${HEAD}${rowOfTexts(5, ["1"])}${rowOfTexts(3, ["1"])}</sheetData>`)),
      "out-of-order",
    ],
    ["a cell that stands twice", row('<c r="A2"><v>1</v></c><c r="A2"><v>2</v></c>'), "out-of-order"],
    ["a cell of another row", row('<c r="A9"><v>1</v></c>'), "out-of-order"],
    [
      "two tables in one sheet",
      zipped(inSheet(`<sheetData>${HEAD}${rowOfTexts(2, ["1"])}</sheetData><sheetData/>`)),
      "out-of-order",
    ],
    ["a row beyond the last", row("<c><v>1</v></c>", ' r="1048577"'), "not-a-table"],
    ["a row of no number", row("<c><v>1</v></c>", ' r="1e3x"'), "not-a-table"],
    ["a value in the last column", row('<c r="XFD2"><v>1</v></c>'), "too-many-columns"],
    [
      "a workbook that takes macros",
      text(
        "[Content_Types].xml",
        '<Types><Override PartName="/xl/workbook.xml" ContentType="application/vnd.ms-excel.sheet.macroEnabled.main+xml"/></Types>',
      ),
      "macro-workbook",
    ],
    ["a binary workbook", zipped([{ name: "xl/workbook.bin", text: "x" }]), "binary-workbook"],
    [
      "an OpenDocument sheet",
      zipped([
        { name: "content.xml", text: "x" },
        { name: "META-INF/manifest.xml", text: "x" },
      ]),
      "open-document",
    ],
    ["a document of another kind", zipped([{ name: "word/document.xml", text: "x" }]), "not-a-workbook"],
    ["a workbook behind a password", compound("EncryptedPackage"), "zip-encrypted"],
    ["a workbook of the old kind", compound("Workbook"), "old-workbook"],
    ["a sheet of the oldest kind", new Uint8Array([9, 8, 16, 0, 0, 6, 5, 0]), "old-workbook"],
    [
      "a web page named as a sheet",
      new Uint8Array(Buffer.from("<html><table><tr><td>1,2</td></tr></table></html>")),
      "markup-file",
    ],
    ["XML of 2003", new Uint8Array(Buffer.from('<?xml version="1.0"?>\n<Workbook xmlns="x"/>')), "markup-file"],
  ])("%s", async (_name, bytes, code) => {
    expect(await endOf(bytes)).toBe(code);
  });

  test("a workbook with bytes changed ends in words or rows", async () => {
    const whole = zipped(
      partsOfBook({
        sheets: { Lines: `<sheetData>${HEAD}<row r="2"><c t="s"><v>0</v></c></row></sheetData>` },
        texts: "<si><t>a</t></si>",
        styles: '<cellXfs><xf numFmtId="14"/></cellXfs>',
      }).map((part) => ({ ...part, stored: true })),
      { wideEnd: true },
    );
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        async (changes) => {
          const copy = whole.slice();
          for (const [at, value] of changes) copy[at] = value;
          return typeof (await endOf(copy)) === "string";
        },
      ),
      { numRuns: cases, seed: 11 },
    );
  });
});

test("XML cut into pieces anywhere gives the same tokens", () => {
  const xml = '<?xml version="1.0"?><a b="1>2" c=\'"\'><!-- x --><d/>t&amp;u<![CDATA[<v>]]>\r\nw<e f = "g"></e ></a>';
  const tokens = (pieces: readonly string[]) => {
    const reader = new XmlReader("x.xml");
    const found: string[] = [];
    let text = "";
    const take = () => {
      for (let token = reader.next(); token !== "more" && token !== "end"; token = reader.next()) {
        if (token === "text") text += reader.read();
        else {
          found.push(
            `${text}|${token} ${reader.name} ${reader.depth} ${token === "open" ? (reader.attribute("b") ?? reader.attribute("f") ?? "") : ""}`,
          );
          text = "";
        }
      }
    };
    for (const piece of pieces) {
      reader.feed(piece);
      take();
    }
    reader.feed();
    take();
    return found;
  };
  const whole = tokens([xml]);
  expect(whole).toEqual(["|open a 1 1>2", "|open d 2 ", "t&u<v>\nw|open e 2 g", "|close e 2 ", "|close a 1 "]);
  for (let cut = 1; cut < xml.length; cut += 1)
    expect(tokens([xml.slice(0, cut), xml.slice(cut)]), `${cut}`).toEqual(whole);
  expect(tokens(xml.split(""))).toEqual(whole);
});

test("no more of a file is read than its rows ask for, and a reading that stops reads no further", async () => {
  const rows = Array.from({ length: 160_000 }, (_, at) =>
    rowOfTexts(at + 2, [String((at * 7919) % 1_000_003), "2025-01-01"]),
  ).join("");
  const bytes = zipped(inSheet(`<sheetData>${HEAD}${rows}</sheetData>`));
  let asked = 0;
  const held = fileOfBytes("back.xlsx", bytes);
  const file: SheetFile = {
    ...held,
    range: (from, to) => {
      asked += Math.max(0, Math.min(to, bytes.length) - from);
      return held.range(from, to);
    },
  };
  const sheet = await openSheet(file);
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  expect(bytes.length).toBeGreaterThan(600_000);
  asked = 0;
  const cancel = { aborted: false };
  const code = await (async () => {
    try {
      for await (const batch of sheet.rows(cancel)) {
        expect(batch.bytesRead).toBeLessThanOrEqual(batch.bytesInAll);
        // a slow reader: whatever runs ahead has time to run ahead
        await new Promise((resolve) => setTimeout(resolve, 30));
        cancel.aborted = true;
      }
      return "read";
    } catch (fault) {
      return (fault as { refusal: { code: string } }).refusal.code;
    }
  })();
  expect(code).toBe("cancelled");
  expect(asked).toBeLessThan(bytes.length);
});
