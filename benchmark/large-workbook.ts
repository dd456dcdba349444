// Writes an invented service of any size as a workbook or as CSV, row by row. Nothing of it is held, so that its making
// is not counted as the reader's memory.
import { closeSync, openSync, writeSync } from "node:fs";
import { once } from "node:events";
import { constants, crc32, createDeflateRaw } from "node:zlib";
import { addDays, dayNumber, parseCivilDate, type CivilDate } from "../src/core/calendar/index.ts";
import { INVENTED_HEADERS, inventedRows, rollFrom } from "../test/invented-lines.ts";
import { endRecord, listRecord, localRecord, partsOfBook, type PartFacts } from "../test/zip-of-parts.ts";

export const LARGE_HEADERS = [...INVENTED_HEADERS, "DOB", "Comment"];
const FROM = "2015-01-01" as CivilDate;
const DAYS = 3600;
/** Two lines of three belong to a person who comes once. */
const PEOPLE_OF_LINES = 0.7;
const CHUNK_ROWS = 500;

export interface LargeSheet {
  readonly rows: number;
  /** A comment of its own in each row, so that the shared texts are many. */
  readonly distinct?: boolean;
  /** Five cells of each row are wrong. */
  readonly faulty?: boolean;
}

/** Numbers as a hospital gives them, in a run with gaps; a birth date belongs to its number and not to its neighbour's. */
const numberOf = (person: number): string => String(3_100_000 + person * 7 + (Math.imul(person, 2_654_435_761) >>> 30));
function bornOf(number: string): CivilDate {
  const mixed = Math.imul(Number(number) ^ (Number(number) >>> 7), 2_246_822_519) >>> 0;
  return addDays("1930-01-01" as CivilDate, mixed % 30_000);
}

const WRONG: Readonly<Record<string, string>> = {
  Vein: "saphenous",
  Attempts: "many",
  Age: "240",
  "Infection date": "some day",
  "Tip position": "near the heart",
};

export function* largeRows({ rows, distinct, faulty }: LargeSheet): Generator<readonly string[]> {
  const people = Math.ceil(rows * PEOPLE_OF_LINES);
  const roll = rollFrom(31);
  const lines = inventedRows({
    lines: rows,
    seed: 20_250,
    from: FROM,
    days: DAYS,
    today: "2026-01-15" as CivilDate,
    patient: () => numberOf(roll(people)),
  });
  let at = 0;
  for (const cells of lines) {
    const told = faulty ? cells.map((cell, column) => WRONG[LARGE_HEADERS[column] as string] ?? cell) : cells;
    const comment = distinct ? `checked by telephone, note ${at}` : "";
    yield [...told, bornOf(cells[0] as string), comment];
    at += 1;
  }
}

/** Pieces of the same sheet as CSV. */
export function* largeCsv(sheet: LargeSheet): Generator<string> {
  let text = `${LARGE_HEADERS.join(",")}\n`;
  let held = 0;
  for (const cells of largeRows(sheet)) {
    text += `${cells.join(",")}\n`;
    held += 1;
    if (held % CHUNK_ROWS !== 0) continue;
    yield text;
    text = "";
  }
  yield text;
}

/** Writes the sheet to a file as spreadsheet programs write one: shared texts, day counts with the look of a date. */
export async function writeLargeWorkbook(path: string, sheet: LargeSheet): Promise<{ readonly unpackedMb: number }> {
  const file = openSync(path, "w");
  let at = 0;
  const put = (bytes: Uint8Array) => {
    writeSync(file, bytes, 0, bytes.length, at);
    at += bytes.length;
  };
  const list: { readonly name: Buffer; readonly from: number; readonly facts: PartFacts }[] = [];
  const write = async (partName: string, pieces: Iterable<string>) => {
    const name = Buffer.from(partName);
    const from = at;
    const facts = { crc: 0, packed: 0, bytes: 0, method: 8, flags: 0 };
    put(Buffer.concat([localRecord(name.length, facts), name]));
    const start = at;
    const packer = createDeflateRaw({ level: constants.Z_BEST_SPEED });
    packer.on("data", put);
    for (const piece of pieces) {
      const content = Buffer.from(piece);
      facts.crc = crc32(content, facts.crc);
      facts.bytes += content.length;
      if (!packer.write(content)) await once(packer, "drain");
    }
    packer.end();
    await once(packer, "end");
    facts.packed = at - start;
    const head = localRecord(name.length, facts);
    writeSync(file, head, 0, head.length, from);
    list.push({ name, from, facts });
  };
  const texts = new Map<string, number>();
  const styles = '<cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>';
  for (const { name, text } of partsOfBook({ sheets: { Lines: "" }, texts: "", styles })) {
    const [open, close] = [String(text).replace(/<\/[^<]+>$/, ""), /<\/[^<]+>$/.exec(String(text))?.[0] ?? ""];
    // the texts are known when the sheet is written
    if (name === "xl/sharedStrings.xml") continue;
    await write(name, name.includes("sheet1") ? around(open, sheetData(sheet, texts), close) : [String(text)]);
    if (name.includes("sheet1"))
      for (const shared of partsOfBook({ sheets: {}, texts: "" }).filter((part) => part.name.includes("shared")))
        await write(shared.name, around(String(shared.text).replace("</sst>", ""), sharedTexts(texts), "</sst>"));
  }
  const directory = at;
  for (const { name, from, facts } of list) put(Buffer.concat([listRecord(name.length, from, facts), name]));
  put(endRecord(list.length, at - directory, directory));
  closeSync(file);
  return { unpackedMb: list.reduce((sum, { facts }) => sum + facts.bytes, 0) / 1e6 };
}

function* around(open: string, pieces: Iterable<string>, close: string): Generator<string> {
  yield open;
  yield* pieces;
  yield close;
}

function* sharedTexts(texts: ReadonlyMap<string, number>): Generator<string> {
  for (const text of texts.keys()) yield `<si><t>${text}</t></si>`;
}

const letters = LARGE_HEADERS.map((_, at) => String.fromCharCode(65 + at));
const FIRST_DAY = dayNumber("1899-12-30" as CivilDate);

function* sheetData(sheet: LargeSheet, texts: Map<string, number>): Generator<string> {
  const codeOf = (text: string) => {
    const code = texts.get(text) ?? texts.size;
    texts.set(text, code);
    return code;
  };
  const cell = (text: string, column: number, row: number): string => {
    if (text === "") return "";
    const place = `<c r="${letters[column]}${row}"`;
    if (/^\d+(\.\d+)?$/.test(text)) return `${place}><v>${text}</v></c>`;
    const day = parseCivilDate(text);
    return day
      ? `${place} s="1"><v>${dayNumber(day) - FIRST_DAY}</v></c>`
      : `${place} t="s"><v>${codeOf(text)}</v></c>`;
  };
  const rowOf = (cells: readonly string[], row: number) =>
    `<row r="${row}" spans="1:${letters.length}">${cells.map((text, column) => cell(text, column, row)).join("")}</row>`;
  yield `<dimension ref="A1:${letters.at(-1)}${sheet.rows + 1}"/><sheetData>${rowOf(LARGE_HEADERS, 1)}`;
  let row = 1;
  let text = "";
  for (const cells of largeRows(sheet)) {
    row += 1;
    text += rowOf(cells, row);
    if (row % CHUNK_ROWS !== 0) continue;
    yield text;
    text = "";
  }
  yield `${text}</sheetData>`;
}
