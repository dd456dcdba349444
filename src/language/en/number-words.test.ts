import fc from "fast-check";
import { expect, test } from "vitest";
import { amountWords, numberWords } from "../index.ts";

test("a measure is read back in words", () => {
  expect(amountWords(3.7, "mm")).toBe("three point seven millimetres");
  expect(amountWords(1, "cm")).toBe("one centimetre");
  expect(amountWords(9.98, "kg")).toBe("nine point nine eight kilograms");
  expect(amountWords(12.05, "mm")).toBe("twelve point zero five millimetres");
  expect(amountWords(171, "cm")).toBe("one hundred and seventy-one centimetres");
  expect(amountWords(5, "furlong")).toBeUndefined();
});

test("37 and 3.7 never sound alike: every number has its own words", () => {
  const said = new Map<string, number>();
  for (let tenths = 0; tenths < 10_000; tenths += 1) {
    const words = numberWords(tenths / 10);
    if (words === undefined) throw new Error(`${tenths / 10} has no words`);
    expect(said.has(words), `${tenths / 10} and ${said.get(words)}`).toBe(false);
    said.set(words, tenths / 10);
  }
});

test("what is out of range has no words, and none are invented", () => {
  fc.assert(
    fc.property(fc.double(), (value) => {
      const words = numberWords(value);
      if (words !== undefined) expect(words).not.toMatch(/undefined|NaN/);
    }),
    { seed: 3, numRuns: 500 },
  );
  expect(numberWords(-1)).toBeUndefined();
  expect(numberWords(1000)).toBeUndefined();
  expect(numberWords(Number.NaN)).toBeUndefined();
});
