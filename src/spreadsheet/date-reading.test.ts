import { describe, expect, test } from "vitest";
import { dateOfSerial, ordersThatFit, readDate, suggestMatching } from "./index.ts";

describe("dates as spreadsheets hold them", () => {
  // Microsoft, "Differences between the 1900 and the 1904 date system": 5 July 1998 is 35981 and 34519 (from memory)
  test("the two day counts are 1,462 days apart", () => {
    expect(dateOfSerial(35_981, 1900)).toBe("1998-07-05");
    expect(dateOfSerial(34_519, 1904)).toBe("1998-07-05");
  });
  // ECMA-376 part 1, 18.17.4: 1 is 1 January 1900, 61 is 1 March 1900, 2,958,465 is 31 December 9999 (from memory)
  test("29 February 1900 is no day, and the days about it are right", () => {
    expect([1, 59, 60, 61].map((day) => dateOfSerial(day, 1900))).toEqual([
      "1900-01-01",
      "1900-02-28",
      undefined,
      "1900-03-01",
    ]);
    expect([0, -1, Number.NaN].map((day) => dateOfSerial(day, 1900))).toEqual([undefined, undefined, undefined]);
    expect(dateOfSerial(0, 1904)).toBe("1904-01-01");
    expect(dateOfSerial(36_526, 1900)).toBe("2000-01-01");
  });

  test("an order, a century and a day count that nobody said are not guessed", () => {
    expect(readDate("03/04/2025", {}).kind).toBe("order not said");
    expect(readDate("03/04/2025", { order: "day first" })).toMatchObject({ date: "2025-04-03" });
    expect(readDate("03/04/2025", { order: "month first" })).toMatchObject({ date: "2025-03-04" });
    expect(readDate("3.4.25", { order: "day first" }).kind).toBe("century not said");
    expect(readDate("3.4.25", { order: "day first", twoDigitUpTo: 25 })).toMatchObject({ date: "2025-04-03" });
    expect(readDate("3.4.26", { order: "day first", twoDigitUpTo: 25 })).toMatchObject({ date: "1926-04-03" });
    expect(readDate("45658", {}).kind).toBe("system not said");
    expect(readDate("31/02/2025", { order: "day first" }).kind).toBe("no such date");
    expect(readDate("3 févr. 2025 14:30", {})).toMatchObject({ date: "2025-02-03", minute: 870 });
    expect(readDate("Feb 3, 2025", {})).toMatchObject({ date: "2025-02-03" });
  });

  // 13 December 2025 is a Saturday by any wall calendar
  test("a day's name before the date is read, and one that is not that day's makes no date", () => {
    expect(readDate("Sat 13/12/2025", { order: "day first" })).toMatchObject({ date: "2025-12-13" });
    expect(readDate("Saturday, 13 Dec 2025", {})).toMatchObject({ date: "2025-12-13" });
    expect(readDate("Mon 13/12/2025", { order: "day first" }).kind).toBe("no such date");
    expect(readDate("Sat 13", { order: "day first" }).kind).toBe("not a date");
  });

  test("values settle the order where they can, and both or none are questions", () => {
    expect(ordersThatFit(["03/04/2025", "25/04/2025"])).toEqual(["day first"]);
    expect(ordersThatFit(["03/04/2025", "05/04/2025"])).toEqual(["day first", "month first"]);
    expect(ordersThatFit(["25/04/2025", "04/25/2025"])).toEqual([]);
  });

  test("units and order are asked where the sheet leaves them open", () => {
    const cells = ["40001", "03/04/2025", "4.2", "41"];
    const sheet = { headers: ["MRN", "Date placed", "Vein diameter", "Length (cm)"], sample: [{ row: 2, cells }] };
    const { suggestions, matching } = suggestMatching(sheet);
    expect(suggestions.map(({ field, questions }) => [field, questions])).toEqual([
      ["patient", []],
      ["placedOn", ["date order"]],
      ["veinDiameterMm", ["unit"]],
      ["insideCm", []],
    ]);
    expect(matching.columns[3]?.unit).toBe("cm");
    expect(matching.confirmedBy).toBe("");
  });
});
