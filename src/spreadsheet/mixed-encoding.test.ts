import { describe, expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import { bytesAre } from "./file/utf8-bytes.ts";
import { fileOfBytes, openSheet, readRows, suggestMatching, type RowFault, type SheetLine } from "./index.ts";

const utf8 = (text: string) => Buffer.from(text, "utf8");
// the letters used here stand at the same place in Latin-1 and Windows-1252
const windows = (text: string) => Buffer.from(text, "latin1");
const HEAD = "MRN,Date placed,Ward\n";

async function read(bytes: Uint8Array, pieceBytes = 65_536) {
  const sheet = await openSheet(fileOfBytes("mixed.csv", bytes, pieceBytes));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  const { matching } = suggestMatching(sheet);
  const lines: SheetLine[] = [];
  const faults: RowFault[] = [];
  const today = "2026-01-15" as CivilDate;
  for await (const part of readRows(sheet, { matching, limits: sheetLimitsFrom(defaultPolicyTable), today })) {
    if (part.kind === "refused") throw new Error(JSON.stringify(part));
    faults.push(...part.faults);
    if (part.kind === "rows") lines.push(...part.lines);
  }
  const told = faults.filter(({ code }) => code === "another encoding");
  return {
    encoding: sheet.encoding,
    wards: lines.map(({ words }) => words.ward),
    told: told.map(({ row, column, found }) => `${row} ${column} ${found}`),
  };
}

describe("a file put together from two systems", () => {
  const row = (number: number, ward: string) => `${number},2025-05-0${(number % 9) + 1},${ward}\n`;

  test("rows of Windows-1252 among UTF-8 are read as what they are, and told", async () => {
    const bytes = Buffer.concat([
      utf8(HEAD + row(1, "Chêne") + row(2, "Tilleul") + row(3, "Érable")),
      windows(row(4, "Chêne")),
      utf8(row(5, "Hêtre")),
    ]);
    expect(await read(bytes)).toEqual({
      encoding: "UTF-8",
      wards: ["Chêne", "Tilleul", "Érable", "Chêne", "Hêtre"],
      told: ["5 Ward Chêne"],
    });
  });

  test("rows of UTF-8 among Windows-1252 likewise", async () => {
    const bytes = Buffer.concat([
      windows(HEAD + row(1, "Chêne") + row(2, "Érable") + row(3, "Hêtre")),
      utf8(row(4, "Chêne")),
    ]);
    expect(await read(bytes)).toMatchObject({
      encoding: "Windows-1252",
      wards: ["Chêne", "Érable", "Hêtre", "Chêne"],
      told: ["5 Ward Chêne"],
    });
  });

  test("every way of cutting the file into pieces gives the same", async () => {
    const bytes = Buffer.concat([utf8(HEAD + row(1, "Chêne")), windows(row(2, "Hêtre")), utf8(row(3, "Érable 😀"))]);
    const whole = await read(bytes);
    expect(whole.wards).toEqual(["Chêne", "Hêtre", "Érable 😀"]);
    for (let piece = 1; piece < bytes.length; piece += 1) expect(await read(bytes, piece)).toEqual(whole);
  });

  test("a file all in one encoding tells nothing, also when its first such letter comes after the head", async () => {
    const many = Array.from({ length: 20_000 }, (_, at) => row(at, "Oak")).join("");
    for (const to of [utf8, windows]) {
      const { wards, told } = await read(Buffer.concat([utf8(HEAD + many), to(row(1, "Chêne") + row(2, "Hêtre"))]));
      expect(told).toEqual([]);
      expect(wards.slice(-2)).toEqual(["Chêne", "Hêtre"]);
    }
  });

  test("a person who names the encoding is taken at the word", async () => {
    const bytes = Buffer.concat([windows(HEAD + row(1, "Chêne")), utf8(row(2, "Chêne"))]);
    const sheet = await openSheet(fileOfBytes("named.csv", bytes), { encoding: "Windows-1252" });
    expect(sheet.kind === "sheet" && sheet.sample.map(({ cells }) => cells[2])).toEqual(["Chêne", "ChÃªne"]);
  });
});

test("bytes are UTF-8 exactly where the platform's own decoder takes them", () => {
  const platform = new TextDecoder("utf-8", { fatal: true });
  const takes = (bytes: Uint8Array) => {
    try {
      platform.decode(bytes);
      return true;
    } catch {
      return false;
    }
  };
  // every pair of bytes, and every lead with edges of each tail
  const edges = [0x00, 0x7f, 0x80, 0x8f, 0x90, 0x9f, 0xa0, 0xbf, 0xc0, 0xff];
  let tried = 0;
  for (let a = 0; a < 256; a += 1)
    for (let b = 0; b < 256; b += 1) {
      const tails = a >= 0xe0 && a < 0xf8 ? edges.flatMap((c) => edges.map((d) => [a, b, c, d])) : [[a, b]];
      for (const some of [...tails, ...(tails.length > 1 ? edges.map((c) => [a, b, c]) : [])]) {
        const bytes = Uint8Array.from(some);
        tried += 1;
        if ((bytesAre(bytes, 0, bytes.length) !== "other") !== takes(bytes)) throw new Error(some.join(" "));
      }
    }
  expect(tried).toBeGreaterThan(600_000);
});
