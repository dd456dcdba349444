import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import { hasDigits, isNear, keepsCheckDigit, packNumber, unpackNumber } from "./line/packed-number.ts";
import { fileOfBytes, openSheet, readRows, suggestMatching, type RowFault } from "./index.ts";

/** Edit distance with turned neighbours, by the whole table: the other way to tell one slip. */
function slips(a: string, b: string): number {
  const rows = Array.from({ length: a.length + 1 }, (_, i) => Array.from({ length: b.length + 1 }, (_, j) => i + j));
  const at = (i: number, j: number) => (rows[i] as number[])[j] as number;
  for (let i = 1; i <= a.length; i += 1)
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, at(i - 2, j - 2) + 1);
      (rows[i] as number[])[j] = least;
    }
  return at(a.length, b.length);
}

describe("a patient's number", () => {
  test("comes out of its 53 bits as it went in, and what does not fit is none", () => {
    const digits = fc.string({ unit: fc.constantFrom(...Array.from("0123456789")), minLength: 1, maxLength: 15 });
    const letters = fc.string({ unit: fc.constantFrom(...Array.from("ab9z0k")), minLength: 1, maxLength: 10 });
    fc.assert(fc.property(fc.oneof(digits, letters), (key) => unpackNumber(packNumber(key)) === key));
    fc.assert(fc.property(digits, (key) => hasDigits(packNumber(key), key.length)));
    expect(packNumber("1234567890123456")).toBe(0);
    expect(packNumber("é1")).toBe(0);
  });

  test("is near another exactly when one slip parts them", () => {
    const key = fc.string({ unit: fc.constantFrom(...Array.from("0123")), minLength: 5, maxLength: 7 });
    fc.assert(
      fc.property(key, key, (a, b) => isNear(a, b) === (slips(a, b) === 1)),
      { numRuns: 5000 },
    );
    expect(isNear("400123", "400213")).toBe(true);
    expect(isNear("41", "42")).toBe(false);
  });

  // NHS Data Dictionary, NHS NUMBER, and the examples in common use with it (from memory)
  test("keeps its check digit or does not", () => {
    expect(["9434765919", "9876543210", "4010232137"].map(keepsCheckDigit)).toEqual([true, true, true]);
    expect(["9434765918", "9434756919", "9876543211"].map(keepsCheckDigit)).toEqual([false, false, false]);
  });
});

async function told(rows: readonly string[]): Promise<readonly string[]> {
  const sheet = await openSheet(fileOfBytes("doubt.csv", new Uint8Array(Buffer.from(`${rows.join("\n")}\n`))));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  const { matching } = suggestMatching(sheet);
  const faults: RowFault[] = [];
  const today = "2026-01-15" as CivilDate;
  for await (const part of readRows(sheet, { matching, limits: sheetLimitsFrom(defaultPolicyTable), today })) {
    if (part.kind === "refused") throw new Error(JSON.stringify(part));
    faults.push(...part.faults);
  }
  return faults.map(({ row, column, code, against }) => `${row} ${column}: ${code}, ${against}`);
}

describe("what is lawful in its row and odd beside the others", () => {
  const HEAD = "MRN,Initials,DOB,Date placed,Date removed";

  test("a near number with one birth date is asked about once, and not where the initials are another's", async () => {
    const one = "400123,AB,1960-02-03,2025-05-01,2025-05-05";
    expect(await told([HEAD, one, "400132,AB,1960-02-03,2025-06-01,2025-06-05"])).toEqual([
      "3 MRN: near number, row 2",
    ]);
    expect(await told([HEAD, one, "400132,,1960-02-03,2025-06-01,2025-06-05"])).toEqual(["3 MRN: near number, row 2"]);
    expect(await told([HEAD, one, "400132,CD,1960-02-03,2025-06-01,2025-06-05"])).toEqual([]);
    expect(await told([HEAD, one, "400132,AB,1960-02-04,2025-06-01,2025-06-05"])).toEqual([]);
  });

  test("one number with two births, or two initials, is asked about", async () => {
    const one = "400123,AB,1960-02-03,2025-05-01,2025-05-05";
    expect(await told([HEAD, one, "400123,AB,1960-03-02,2025-06-01,2025-06-05"])).toEqual([
      "3 DOB: number of two people, row 2",
    ]);
    expect(await told([HEAD, one, "400123,XY,1960-02-03,2025-06-01,2025-06-05"])).toEqual([
      "3 Initials: number of two people, row 2",
    ]);
  });

  test("a ratio is held against size and vein as counting holds it", async () => {
    const head = "MRN,Date placed,Fr,Vein diameter (mm),Ratio %";
    // 4 Fr in 4.0 mm is a third
    expect(await told([head, "1,2025-05-01,4,4.0,33", "2,2025-05-02,4,4.0,34.9"])).toEqual([]);
    expect(await told([head, "1,2025-05-01,4,4.0,43"])).toEqual(["2 Ratio %: ratio against size, 33 %"]);
  });

  test("a clot belongs to the line for as long as counting says, an infection for a day", async () => {
    const head = "MRN,Date placed,Date removed,DVT date,Infection date,Occlusion date";
    const row = (clot: string, infection: string, occlusion: string) =>
      `1,2025-05-01,2025-05-10,${clot},${infection},${occlusion}`;
    expect(await told([head, row("2025-05-17", "2025-05-11", "2025-05-10")])).toEqual([]);
    expect(await told([head, row("2025-05-18", "2025-05-12", "2025-05-11")])).toEqual([
      "2 Infection date: event after removal, 2025-05-10",
      "2 DVT date: event after removal, 2025-05-10",
      "2 Occlusion date: event after removal, 2025-05-10",
    ]);
  });

  test("a table in no order of time says nothing of order", async () => {
    const rows = Array.from({ length: 40 }, (_, at) => {
      const day = String(1 + ((at * 17) % 28)).padStart(2, "0");
      const month = String(1 + ((at * 7) % 12)).padStart(2, "0");
      return `${400_000 + 37 * at},AB,1950-01-${day},2025-${month}-${day},`;
    });
    expect(await told([HEAD, ...rows])).toEqual([]);
  });

  // two lines at one time, one in each arm, are lawful; a line that nobody took out is asked about
  test("two lines at once are asked about in one arm, in an arm not named, or where the first was never out", async () => {
    const head = "MRN,Date placed,Date removed,Arm";
    const first = "41,2025-05-01,2025-05-20,L";
    expect(await told([head, first, "41,2025-05-05,2025-05-09,R"])).toEqual([]);
    expect(await told([head, first, "41,2025-05-05,2025-05-09,L"])).toEqual(["3 : lines overlap, row 2"]);
    expect(await told([head, first, "41,2025-05-05,2025-05-09,"])).toEqual(["3 : lines overlap, row 2"]);
    expect(await told([head, "41,2025-05-01,,L", "41,2025-05-05,2025-05-09,R"])).toEqual(["3 : lines overlap, row 2"]);
    // the left line outlasts a short one in the right arm, and the third is in the left arm again
    expect(await told([head, first, "41,2025-05-05,2025-05-09,R", "41,2025-05-12,2025-05-14,L"])).toEqual([
      "4 : lines overlap, row 2",
    ]);
  });

  test("without a birth date, a near number in at the same time is asked about by age, vein, arm and ward", async () => {
    const head = "MRN,Age,Date placed,Date removed,Arm,Vein,Ward";
    const one = "400123,47,2025-05-01,2025-05-20,L,basilic,Ash";
    expect(await told([head, one, "400124,47,2025-05-05,2025-05-25,L,basilic,Ash"])).toEqual([
      "3 MRN: near number, row 2",
    ]);
    for (const lawful of [
      "400124,48,2025-05-05,2025-05-25,L,basilic,Ash",
      "400124,47,2025-05-05,2025-05-25,L,brachial,Ash",
      "400124,47,2025-05-05,2025-05-25,L,basilic,Birch",
      "400124,47,2025-05-21,2025-05-25,L,basilic,Ash",
      "400199,47,2025-05-05,2025-05-25,L,basilic,Ash",
    ])
      expect(await told([head, one, lawful]), lawful).toEqual([]);
  });

  test("one year of birth, one set of initials, lines at once: a near number is asked about though a date is another", async () => {
    const one = "400123,AB,1960-02-03,2025-05-01,2025-05-20";
    expect(await told([HEAD, one, "400124,AB,1960-03-02,2025-05-05,2025-05-25"])).toEqual([
      "3 MRN: near number, row 2",
    ]);
    expect(await told([HEAD, one, "400124,AB,1961-02-03,2025-05-05,2025-05-25"])).toEqual([]);
    expect(await told([HEAD, one, "400124,AB,1960-03-02,2025-05-21,2025-05-25"])).toEqual([]);
  });

  // docs/reference/quality.md, E5
  test("a reason that names an event no column dates is asked about; one that a column dates is not", async () => {
    const head = "MRN,Date placed,Date removed,Why out,Infection date,Exit site infection,DVT date";
    const row = (why: string, infection = "", exitSite = "", clot = "") =>
      `1,2025-05-01,2025-05-10,${why},${infection},${exitSite},${clot}`;
    expect(await told([head, row("sepsis")])).toEqual(["2 Why out: event only in the reason, Infection date is empty"]);
    expect(await told([head, row("DVT", "", "", "n/k")])).toEqual([
      "2 Why out: event only in the reason, DVT date is empty",
    ]);
    expect(await told([head, row("sepsis", "2025-05-09")])).toEqual([]);
    expect(await told([head, row("infected", "", "2025-05-09")])).toEqual([]);
    expect(await told([head, row("?infection"), row("blocked"), row("treatment complete")].slice(0, 2))).toEqual([]);
    // a date that was written and not read is not an empty cell
    expect(await told([head, row("sepsis", "soon")])).toEqual(["2 Infection date: event without a day, not a date"]);
    expect(await told(["MRN,Date placed,Date removed,Why out", "1,2025-05-01,2025-05-10,DVT"])).toEqual([
      "2 Why out: event only in the reason, no column of its date",
    ]);
  });

  // a table of OWASP on formulas in CSV (from memory): what harms calls, pipes or reaches another sheet
  test("a note that begins with a dash is no formula; a call or a pipe behind it is", async () => {
    const head = "MRN,Date placed,Comment";
    expect(await told([head, "1,2025-05-01,- see the book"])).toEqual([]);
    for (const hostile of ["- cmd|calc", "- HYPERLINK(1)", "-2+3", "=1+1", "@SUM(1)"])
      expect(await told([head, `1,2025-05-01,${hostile}`]), hostile).toEqual(["2 Comment: looks like a formula, "]);
  });
});
