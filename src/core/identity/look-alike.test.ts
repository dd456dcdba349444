import { expect, test } from "vitest";
import { lookAlikeReasons, slips } from "./index.ts";

// Worked by hand: swap counts one; "kitten" to "sitting" is the textbook three.
test("slips of the pen are counted as people make them", () => {
  expect(slips("20418", "20481")).toBe(1);
  expect(slips("kitten", "sitting")).toBe(3);
  expect(slips("", "abc")).toBe(3);
});

const edda = { name: "ROWAN, Edda", identifier: "20418", bornOn: "1968-05-04" };

test("the same surname, a swapped digit and a date one digit off are each a reason", () => {
  expect(lookAlikeReasons(edda, { name: "Rowan, Enna", identifier: "31999", bornOn: "" })).toEqual(["same surname"]);
  expect(lookAlikeReasons(edda, { name: "BIRK, Oskar", identifier: "20481", bornOn: "" })).toEqual(["similar number"]);
  expect(lookAlikeReasons(edda, { name: "ROWEN, Edda", identifier: "555", bornOn: "" })).toEqual(["similar name"]);
  expect(lookAlikeReasons(edda, { name: "BIRK, Oskar", identifier: "555", bornOn: "1968-05-07" })).toEqual([
    "similar date of birth",
  ]);
  expect(lookAlikeReasons(edda, { name: "ROWAN, Edda", identifier: "20481", bornOn: "1968-05-04" })).toHaveLength(3);
});

test("the same number is the same person, and strangers are no look-alikes", () => {
  expect(lookAlikeReasons(edda, { ...edda })).toEqual([]);
  expect(lookAlikeReasons(edda, { name: "FALK, Henrike", identifier: "77777", bornOn: "1951-11-23" })).toEqual([]);
});

test("two people of one surname whose numbers are both missing are look-alikes, not one person", () => {
  const noNumber = { ...edda, identifier: "" };
  expect(lookAlikeReasons(noNumber, { name: "ROWAN, Enna", identifier: "", bornOn: "" })).toEqual(["same surname"]);
});

test("accents and capitals do not hide a look-alike", () => {
  const [a, b] = ["MÜLLER, Jörg", "Muller, Jan"].map((name, at) => ({ name, identifier: `${at}00${at}9`, bornOn: "" }));
  if (!a || !b) throw new Error("two people");
  expect(lookAlikeReasons(a, b)).toContain("same surname");
});
