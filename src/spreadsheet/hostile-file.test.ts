import { utils, write } from "@e965/xlsx";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import { zipOfParts } from "../../test/zip-of-parts.ts";
import {
  exportCell,
  fileOfBytes,
  openSheet,
  previewFaults,
  readRows,
  suggestMatching,
  type Matching,
} from "./index.ts";

const bytes = (text: string) => new Uint8Array(Buffer.from(text, "utf8"));
const today = "2026-01-15" as CivilDate;
const limits = sheetLimitsFrom(defaultPolicyTable);
const cases = Number(process.env["VEINWRIGHT_CASES"] ?? 1) * 150;

async function refusalOf(content: Uint8Array): Promise<string> {
  const sheet = await openSheet(fileOfBytes("hostile", content));
  if (sheet.kind === "refused") return sheet.refusal.code;
  if (sheet.kind === "choose sheet") return sheet.kind;
  const { matching } = suggestMatching(sheet);
  const preview = await previewFaults(sheet, { matching, limits, today });
  return preview.kind === "refused" ? preview.refusal.code : "read";
}

const workbook = (rows: readonly (readonly unknown[])[]): Uint8Array =>
  new Uint8Array(
    write(utils.book_new(utils.aoa_to_sheet(rows.map((row) => [...row])), "Lines"), {
      type: "array",
      bookType: "xlsx",
      compression: true,
    }) as ArrayBuffer,
  );
const plain = [
  ["MRN", "Date placed", "Arm"],
  ["4001", "2025-04-03", "L"],
  ["4002", "2025-04-05", "R"],
];

const zipOf = (name: string, text: Uint8Array, saysBytes = text.length): Uint8Array =>
  zipOfParts([{ name, text, saysBytes }]);

describe("files hostile on purpose", () => {
  const head = "MRN,Date placed,Arm\r\n";
  test.each([
    ["nothing", new Uint8Array(0), "empty-file"],
    ["a picture", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13, 0, 1]), "not-a-table"],
    ["a workbook of the old kind", new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1]), "old-workbook"],
    [
      "UTF-8 that breaks later",
      new Uint8Array([...bytes(`${head}Chêne,2025-01-01,L\r\n`), 0xff, 0xfe, 0x2c, 0x0a]),
      "read",
    ],
    [
      "a byte that Windows-1252 does not have",
      new Uint8Array([...bytes(head), 0x81, 0x2c, 0x2c, 0x0a]),
      "wrong-encoding",
    ],
    ["a cell of 10 MB", bytes(`${head}${"x".repeat(10_000_000)},2025-01-01,L\r\n`), "cell-too-large"],
    ["a quote that never closes", bytes(`${head}"${"4001,2025-01-01,L\r\n".repeat(60_000)}`), "quote-never-closed"],
    ["16,000 columns", bytes(`${"a,".repeat(16_000)}\n${"1,".repeat(16_000)}\n`), "too-many-columns"],
    [
      "a workbook of 16,000 columns",
      workbook([plain[0] as string[], Array.from({ length: 16_000 }, () => 1)]),
      "too-many-columns",
    ],
    ["a workbook cut off", workbook(plain).slice(0, 900), "zip-damaged"],
    ["a part that unpacks a thousand times", zipOf("xl/workbook.xml", new Uint8Array(30_000_000)), "zip-bomb"],
    ["a part that says it is small", zipOf("xl/workbook.xml", new Uint8Array(3_000_000), 100), "zip-bomb"],
    ["an archive in the archive", zipOf("xl/inner.zip", bytes("x")), "zip-nested"],
    ["macros", zipOf("xl/vbaProject.bin", bytes("x")), "macro-workbook"],
    ["links to other files", zipOf("xl/externalLinks/externalLink1.xml", bytes("x")), "external-links"],
    ["a zip of something else", zipOf("readme.txt", bytes("x")), "not-a-workbook"],
    [
      "more parts than a workbook has",
      zipOfParts(Array.from({ length: 1200 }, (_, at) => ({ name: `p${at}`, text: "x" }))),
      "zip-too-many-parts",
    ],
    ["entities", zipOf("xl/workbook.xml", bytes('<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>')), "definitions-inside"],
  ])("%s", async (_name, content, code) => {
    const answer = await refusalOf(content);
    if (code === "read") expect(["read", "wrong-encoding"]).toContain(answer);
    else expect(answer).toBe(code);
  });

  test("headers that name an object's own workings stay words", async () => {
    const sheet = await openSheet(
      fileOfBytes("p.csv", bytes("__proto__,constructor,MRN,Date placed,MRN\n1,2,3,2025-01-01,4\n")),
    );
    if (sheet.kind !== "sheet") throw new Error("refused");
    expect(sheet.headers).toEqual(["__proto__", "constructor", "MRN", "Date placed", "MRN #2"]);
    suggestMatching(sheet);
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  test("a formula is kept as text, told, and made harmless on export", async () => {
    const sheet = await openSheet(
      fileOfBytes("f.csv", bytes('MRN,Date placed,Ward\n1,2025-01-01,"=1+1"\n2,2025-01-02,-3\n')),
    );
    if (sheet.kind !== "sheet") throw new Error("refused");
    const { matching } = suggestMatching(sheet);
    const preview = await previewFaults(sheet, { matching, limits, today });
    expect(preview.kind === "preview" && preview.faults.map(({ row, code, found }) => [row, code, found])).toEqual([
      [2, "looks like a formula", "=1+1"],
    ]);
    expect(["=1+1", "+A1", "@x", "-2+3", "-3.5", "a,b"].map(exportCell)).toEqual([
      "'=1+1",
      "'+A1",
      "'@x",
      "'-2+3",
      "-3.5",
      '"a,b"',
    ]);
  });

  test("a reading that is cancelled stops and says so", async () => {
    const sheet = await openSheet(fileOfBytes("c.csv", bytes(`MRN,Date placed\n${"1,2025-01-01\n".repeat(50_000)}`)));
    if (sheet.kind !== "sheet") throw new Error("refused");
    const { matching } = suggestMatching(sheet);
    const cancel = { aborted: false };
    const kinds: string[] = [];
    for await (const part of readRows(sheet, { matching, limits, today, cancel })) {
      kinds.push(part.kind === "refused" ? part.refusal.code : part.kind);
      cancel.aborted = true;
    }
    expect(kinds).toEqual(["rows", "cancelled"]);
  });

  test("any bytes end in words or rows, never in a crash", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uint8Array({ maxLength: 600 }),
        async (content) => typeof (await refusalOf(content)) === "string",
      ),
      { numRuns: cases, seed: 7 },
    );
  });

  test("a workbook with bytes changed ends in words or rows", async () => {
    const whole = workbook(plain);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 12 }),
        async (changes) => {
          const copy = whole.slice();
          for (const [at, value] of changes) copy[at] = value;
          return typeof (await refusalOf(copy)) === "string";
        },
      ),
      { numRuns: cases, seed: 8 },
    );
  });

  test("pieces of any size read the same rows", async () => {
    const text = bytes(
      'MRN,Date placed,Ward\r\n1,2025-01-01,"Chêne\r\nNord"\r\n2,2025-01-02,"a ""b"""\r\n3,2025-01-03,Ash\r\n',
    );
    const matching: Matching = {
      format: "veinwright-matching-1",
      confirmedBy: "t",
      columns: [
        { header: "MRN", field: "patient" },
        { header: "Date placed", field: "placedOn" },
        { header: "Ward", field: "ward" },
      ],
    };
    for (const size of [1, 2, 3, 7, 64]) {
      const sheet = await openSheet(fileOfBytes("s.csv", text, size));
      if (sheet.kind !== "sheet") throw new Error("refused");
      const wards: (string | undefined)[] = [];
      for await (const part of readRows(sheet, { matching, limits, today }))
        if (part.kind === "rows") wards.push(...part.lines.map(({ words }) => words.ward));
      expect(wards).toEqual(["Chêne\nNord", 'a "b"', "Ash"]);
    }
  });
});
