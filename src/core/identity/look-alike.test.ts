import { expect, test } from "vitest";
import { looksAlike, slips } from "./index.ts";

// Worked by hand: swap counts one; "kitten" to "sitting" is the textbook three.
test("slips of the pen are counted as people make them", () => {
  expect(slips("20418", "20481")).toBe(1);
  expect(slips("kitten", "sitting")).toBe(3);
  expect(slips("", "abc")).toBe(3);
});

test("the same surname or a swapped digit is a look-alike; the same number is the same person", () => {
  const edda = { name: "ROWAN, Edda", identifier: "20418" };
  expect(looksAlike(edda, { name: "Rowan, Enna", identifier: "31999" })).toBe(true);
  expect(looksAlike(edda, { name: "BIRK, Oskar", identifier: "20481" })).toBe(true);
  expect(looksAlike(edda, { name: "ROWAN, Edda", identifier: "20418" })).toBe(false);
  expect(looksAlike(edda, { name: "FALK, Henrike", identifier: "77777" })).toBe(false);
});
