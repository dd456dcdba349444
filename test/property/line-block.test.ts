import fc from "fast-check";
import { TIP_PLACES } from "../../src/core/tip/index.ts";
import { describe, expect, test } from "vitest";
import {
  BLOCK_LETTERS,
  checkCharacters,
  readLineBlock,
  writeLineBlock,
  type LineFacts,
} from "../../src/contract/index.ts";
import { addDays, type CivilDate } from "../../src/core/calendar/index.ts";
import { MISSING_KINDS } from "../../src/core/missing/index.ts";
import { ARMS, VEINS, type Recorded } from "../../src/register/index.ts";

const recorded = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Recorded<Value>> =>
  fc.oneof(
    { weight: 5, arbitrary: value.map((one): Recorded<Value> => ({ value: one, from: "imported" })) },
    { weight: 1, arbitrary: value.map((one): Recorded<Value> => ({ value: one, from: "plan" })) },
    { weight: 2, arbitrary: fc.constantFrom(...MISSING_KINDS).map((missing): Recorded<Value> => ({ missing })) },
  );
const tenths = (least: number, most: number) => fc.integer({ min: least * 10, max: most * 10 }).map((n) => n / 10);
const day = fc.integer({ min: 0, max: 36_524 }).map((n) => addDays("2000-01-01" as CivilDate, n));
const lot = fc
  .array(fc.constantFrom(...Array.from("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-/.")), { minLength: 1, maxLength: 18 })
  .map((signs) => signs.join(""));
const facts: fc.Arbitrary<LineFacts> = fc.record({
  issue: fc.integer({ min: 1, max: 999 }),
  came: fc.constantFrom("placed", "found"),
  placedOn: recorded(day),
  arm: recorded(fc.constantFrom(...ARMS)),
  vein: recorded(fc.constantFrom(...VEINS)),
  french: recorded(tenths(1, 9)),
  lumens: recorded(fc.integer({ min: 1, max: 4 })),
  skinExitCm: recorded(tenths(0, 40)),
  insideCm: recorded(tenths(0, 70)),
  outsideCm: recorded(tenths(0, 40)),
  outsideOn: recorded(day),
  tipMethod: recorded(fc.constantFrom("film", "ECG", "fluoroscopy", "echo")),
  tipPlace: recorded(fc.constantFrom(...TIP_PLACES)),
  tipOn: recorded(day),
  lotNumber: fc.option(recorded(lot), { nil: undefined }),
});

const place = fc.integer({ min: 0, max: 11 });
const lettersOf = (line: string) => line.replaceAll(" ", "");
const changed = (lines: readonly string[], at: number, line: string) =>
  lines.map((one, index) => (index === at ? line : one)).join("\n");
const codes = (text: string) => {
  const reading = readLineBlock(text);
  return reading.kind === "faults" ? reading.faults.map(({ path, code }) => `${path}: ${code}`) : ["read"];
};

describe("the card's text block", () => {
  test("comes back as it went out, in small letters, without its gaps and in any order", () => {
    fc.assert(
      fc.property(facts, (one) => {
        const lines = writeLineBlock(one);
        for (const line of lines) expect(line).toMatch(/^[A-HJ-NP-Z2-9]{4} [A-HJ-NP-Z2-9]{4} [A-HJ-NP-Z2-9]{4}$/);
        const typed = [...lines].reverse().join("\n").toLowerCase().replaceAll(" ", "-");
        expect(readLineBlock(typed)).toEqual({ kind: "read", facts: one });
        expect(readLineBlock(lines.join("").replaceAll(" ", ""))).toEqual({ kind: "read", facts: one });
      }),
    );
  });

  test("one wrong letter anywhere is caught and its line is named", () => {
    fc.assert(
      fc.property(facts, fc.nat(), place, fc.constantFrom(...Array.from(BLOCK_LETTERS)), (one, pick, at, letter) => {
        const lines = writeLineBlock(one);
        const index = pick % lines.length;
        const good = lettersOf(lines[index] as string);
        fc.pre(good.charAt(at) !== letter);
        const bad = good.slice(0, at) + letter + good.slice(at + 1);
        expect(codes(changed(lines, index, bad))).toEqual([`line ${index + 1}: check-letters`]);
      }),
    );
  });

  test("two neighbours swapped are caught and their line is named", () => {
    fc.assert(
      fc.property(facts, fc.nat(), fc.integer({ min: 0, max: 10 }), (one, pick, at) => {
        const lines = writeLineBlock(one);
        const index = pick % lines.length;
        const good = lettersOf(lines[index] as string);
        fc.pre(good.charAt(at) !== good.charAt(at + 1));
        const bad = good.slice(0, at) + good.charAt(at + 1) + good.charAt(at) + good.slice(at + 2);
        expect(codes(changed(lines, index, bad))).toEqual([`line ${index + 1}: check-letters`]);
      }),
    );
  });

  test("every wrong letter and every swap of one block is caught: all of them, not a sample", () => {
    const [one] = fc.sample(facts, { numRuns: 1, seed: 7 }) as [LineFacts];
    const lines = writeLineBlock(one);
    let tried = 0;
    for (const [index, line] of lines.entries()) {
      const good = lettersOf(line);
      for (let at = 0; at < good.length; at += 1) {
        for (const letter of BLOCK_LETTERS) {
          if (good.charAt(at) === letter) continue;
          tried += 1;
          expect(codes(changed(lines, index, good.slice(0, at) + letter + good.slice(at + 1)))).not.toEqual(["read"]);
        }
      }
    }
    expect(tried).toBe(lines.length * 12 * 31);
  });

  test("whatever the check comes to, a letter before it keeps it among the letters of the block", () => {
    // one letter before the check moves it by 25 modulo 1271; every place it can start from must be reachable
    const starts = new Set<string>();
    for (let n = 0; starts.size < 1271; n += 1) {
      const text =
        `${Math.floor(n / 1296).toString(36)}${Math.floor(n / 36) % 36}${(n % 36).toString(36)}`.toUpperCase();
      if (starts.has(checkCharacters(text))) continue;
      starts.add(checkCharacters(text));
      const reached = Array.from(BLOCK_LETTERS).some((letter) =>
        Array.from(checkCharacters(text + letter)).every((sign) => BLOCK_LETTERS.includes(sign)),
      );
      expect(reached, text).toBe(true);
    }
  });

  test("says what else can be wrong, by line", () => {
    const [one, other] = fc.sample(facts, { numRuns: 2, seed: 3 }) as [LineFacts, LineFacts];
    const lines = writeLineBlock({ ...one, issue: 2 });
    const newer = writeLineBlock({ ...one, issue: 3 });
    expect(codes(lines.slice(0, -1).join("\n")).at(-1)).toMatch(/^line [E-G]: missing-field$/);
    expect(codes(changed(lines, 2, newer[2] as string))).toEqual(["line C: contradicts"]);
    expect(codes([...lines, lines[1]].join("\n"))).toEqual([`line ${lines.length + 1}: twice`]);
    expect(codes(changed(lines, 1, (lines[1] as string).slice(0, -1)))).toEqual(["line 2: wrong-length"]);
    expect(codes(changed(lines, 1, `O${(lines[1] as string).slice(1)}`))).toEqual(["line 2: not-in-list"]);
    expect(codes("")).toContain("line A: missing-field");
    expect(() => writeLineBlock({ ...other, insideCm: { value: 71, from: "imported" } })).toThrow(RangeError);
    // small letters would come back as capitals, so such a lot is not carried at all
    const small = readLineBlock(writeLineBlock({ ...one, lotNumber: { value: "lx44", from: "told" } }).join("\n"));
    expect(small.kind === "read" && small.facts.lotNumber).toBeUndefined();
  });
});
