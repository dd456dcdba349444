import { expect, test } from "vitest";
import { amount } from "./number.ts";

test("a number is never parted from its unit at the end of a line", () => {
  // Unicode Standard Annex 14: U+202F is glue, a thin space U+2009 is a place to break; "3.0" alone may be read as another number
  const shown = amount(3, "cm", 1);
  expect(shown).toBe("3.0\u202fcm");
  expect(/[\t \u2000-\u200a]/.test(shown)).toBe(false);
});
