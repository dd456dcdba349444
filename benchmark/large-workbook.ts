// Writes a workbook of a million rows and twenty columns as spreadsheet programs write one: shared texts, day counts,
// percent. Nothing of it is held, so that its making is not counted as the reader's memory.
import { closeSync, openSync, writeSync } from "node:fs";
import { constants, crc32, createDeflateRaw } from "node:zlib";
import { once } from "node:events";

const COLUMNS = [
  "MRN",
  "Date placed",
  "Date removed",
  "Arm",
  "Vein",
  "Fr",
  "Lumens",
  "Vein diameter (mm)",
  "Attempts",
  "Ward",
  "Inserter",
  "Reason for removal",
  "Length inside (cm)",
  "Weight (kg)",
  "Ratio",
  "Tip position",
  "Indication",
  "Date of birth",
  "Date of infection",
  "Comment",
];
const WORDS = ["L", "R", "basilic", "brachial", "end of treatment", "CAJ", "IV antibiotics"];
const WARDS = 40;
const PEOPLE = 25;
const CHUNK_ROWS = 500;
const letters = COLUMNS.map((_, at) => String.fromCharCode(65 + at));

interface Written {
  readonly name: string;
  readonly from: number;
  readonly crc: number;
  readonly packed: number;
  readonly bytes: number;
}

/** Writes the workbook to a file; `distinct` gives each row a comment of its own, so that the shared texts are many. */
export async function writeLargeWorkbook(
  path: string,
  rows: number,
  distinct: boolean,
): Promise<{ readonly unpackedMb: number }> {
  const file = openSync(path, "w");
  let at = 0;
  const put = (bytes: Uint8Array) => {
    writeSync(file, bytes, 0, bytes.length, at);
    at += bytes.length;
  };
  const parts: Written[] = [];
  const part = async (name: string, pieces: Iterable<string>) => {
    const from = at;
    put(Buffer.concat([record(0x04034b50, 26), Buffer.from(name)]));
    const start = at;
    const packer = createDeflateRaw({ level: constants.Z_BEST_SPEED });
    packer.on("data", (bytes: Uint8Array) => put(bytes));
    let crc = 0;
    let bytes = 0;
    for (const piece of pieces) {
      const content = Buffer.from(piece);
      crc = crc32(content, crc);
      bytes += content.length;
      if (!packer.write(content)) await once(packer, "drain");
    }
    packer.end();
    await once(packer, "end");
    const packed = at - start;
    const head = record(0x04034b50, 26);
    facts(head, 4, { name, crc, packed, bytes });
    writeSync(file, head, 0, head.length, from);
    parts.push({ name, from, crc, packed, bytes });
  };
  const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const packageRelations = "http://schemas.openxmlformats.org/package/2006/relationships";
  await part("[Content_Types].xml", [
    `${head}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
  ]);
  await part("_rels/.rels", [
    `${head}<Relationships xmlns="${packageRelations}"><Relationship Id="rId1" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
  ]);
  await part("xl/_rels/workbook.xml.rels", [
    `${head}<Relationships xmlns="${packageRelations}"><Relationship Id="rId1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${office}/styles" Target="styles.xml"/><Relationship Id="rId3" Type="${office}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
  ]);
  await part("xl/workbook.xml", [
    `${head}<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="Lines" sheetId="1" r:id="rId1"/></sheets></workbook>`,
  ]);
  await part("xl/styles.xml", [
    `${head}<styleSheet xmlns="${main}"><cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="10"/></cellXfs></styleSheet>`,
  ]);
  await part("xl/sharedStrings.xml", sharedTexts(head, main, distinct ? rows : 0));
  await part("xl/worksheets/sheet1.xml", sheet(head, main, rows, distinct));
  const directory = at;
  for (const { name, from, ...rest } of parts) {
    const entry = record(0x02014b50, 42);
    entry.writeUInt16LE(20, 4);
    facts(entry, 6, { name, ...rest });
    entry.writeUInt32LE(from, 42);
    put(Buffer.concat([entry, Buffer.from(name)]));
  }
  const end = record(0x06054b50, 18);
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(at - directory, 12);
  end.writeUInt32LE(directory, 16);
  put(end);
  closeSync(file);
  return { unpackedMb: parts.reduce((sum, { bytes }) => sum + bytes, 0) / 1e6 };
}

function record(sign: number, after: number): Buffer {
  const bytes = Buffer.alloc(4 + after);
  bytes.writeUInt32LE(sign, 0);
  return bytes;
}

function facts(bytes: Buffer, from: number, { name, crc, packed, bytes: size }: Omit<Written, "from">): void {
  bytes.writeUInt16LE(20, from);
  bytes.writeUInt16LE(8, from + 4);
  bytes.writeUInt32LE(crc, from + 10);
  bytes.writeUInt32LE(packed, from + 14);
  bytes.writeUInt32LE(size, from + 18);
  bytes.writeUInt16LE(name.length, from + 22);
}

const firstWard = COLUMNS.length + WORDS.length;
const firstPerson = firstWard + WARDS;
const firstComment = firstPerson + PEOPLE;

function* sharedTexts(head: string, main: string, comments: number): Generator<string> {
  yield `${head}<sst xmlns="${main}">`;
  const words = [
    ...COLUMNS,
    ...WORDS,
    ...Array.from({ length: WARDS }, (_, at) => `Ward ${at}`),
    ...Array.from({ length: PEOPLE }, (_, at) => `nurse ${at}`),
  ];
  yield words.map((text) => `<si><t>${text}</t></si>`).join("");
  for (let at = 0; at < comments; at += CHUNK_ROWS)
    yield Array.from(
      { length: Math.min(CHUNK_ROWS, comments - at) },
      (_, next) => `<si><t>checked by telephone, note ${at + next}</t></si>`,
    ).join("");
  yield "</sst>";
}

function* sheet(head: string, main: string, rows: number, distinct: boolean): Generator<string> {
  yield `${head}<worksheet xmlns="${main}"><dimension ref="A1:T${rows + 1}"/><sheetData>`;
  yield `<row r="1">${COLUMNS.map((_, at) => `<c r="${letters[at]}1" t="s"><v>${at}</v></c>`).join("")}</row>`;
  const word = (at: number) => ` t="s"><v>${COLUMNS.length + at}`;
  for (let from = 0; from < rows; from += CHUNK_ROWS) {
    let text = "";
    for (let at = from; at < Math.min(rows, from + CHUNK_ROWS); at += 1) {
      const placed = 40_000 + ((at * 7) % 5000);
      const side = at % 2;
      const cells = [
        `><v>${400_000 + at}`,
        ` s="1"><v>${placed}`,
        ` s="1"><v>${placed + 1 + (at % 40)}`,
        word(side),
        word(2 + side),
        `><v>${3 + (at % 3)}`,
        "><v>1",
        `><v>${2.5 + (at % 30) / 10}`,
        "><v>1",
        ` t="s"><v>${firstWard + (at % WARDS)}`,
        ` t="s"><v>${firstPerson + ((at * 3) % PEOPLE)}`,
        word(4),
        `><v>${30 + (at % 20)}`,
        `><v>${50 + ((at * 13) % 500) / 10}`,
        ` s="2"><v>${(20 + (at % 30)) / 100}`,
        word(5),
        word(6),
        ` s="1"><v>${10_000 + ((at * 11) % 20_000)}`,
        "><v>",
        ` t="s"><v>${distinct ? firstComment + at : COLUMNS.length}`,
      ];
      text += `<row r="${at + 2}" spans="1:20">${cells.map((cell, column) => `<c r="${letters[column]}${at + 2}"${cell}</v></c>`).join("")}</row>`;
    }
    yield text;
  }
  yield "</sheetData></worksheet>";
}
