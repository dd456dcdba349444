import { expect, test } from "vitest";
import { isKnown, isMissing, missing, MISSING_KINDS } from "./index.ts";

test("every kind of absence is missing, and zero is not", () => {
  for (const kind of MISSING_KINDS) expect(isMissing(missing(kind))).toBe(true);
  expect(isKnown(0)).toBe(true);
  expect(isKnown("")).toBe(true);
});
