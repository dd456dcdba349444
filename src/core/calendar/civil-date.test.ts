import { expect, test } from "vitest";
import {
  addDays,
  completedYears,
  dayNumber,
  midnightsBetween,
  parseCivilDate,
  weekday,
  type CivilDate,
} from "./index.ts";

const date = (text: string) => parseCivilDate(text) as CivilDate;

// ISO 8601: 1970-01-01 was a Thursday; 2000 is a leap year and 1900 is not (Gregorian rule).
test("dates that do not exist are refused", () => {
  expect(parseCivilDate("2025-02-29")).toBeUndefined();
  expect(parseCivilDate("2024-02-29")).toBe("2024-02-29");
  expect(parseCivilDate("1900-02-29")).toBeUndefined();
  expect(parseCivilDate("2000-02-29")).toBe("2000-02-29");
  expect(parseCivilDate("03/06/2025")).toBeUndefined();
});

test("the first day of 1970 is day 0 and a Thursday", () => {
  expect(dayNumber(date("1970-01-01"))).toBe(0);
  expect(weekday(date("1970-01-01"))).toBe(3);
});

// Common practice, no source: 3 June to 17 June 2025 is 14 midnights.
test("3 June to 17 June is 14 midnights", () => {
  expect(midnightsBetween(date("2025-06-03"), date("2025-06-17"))).toBe(14);
  expect(addDays(date("2025-08-05"), 7)).toBe("2025-08-12");
});

test("every day of 800 years survives the trip to a day number and back", () => {
  for (let days = dayNumber(date("1800-01-01")); days < dayNumber(date("2600-01-01")); days += 1) {
    if (dayNumber(addDays(date("1970-01-01"), days)) !== days) throw new Error(`day ${days} moved`);
  }
});

test("a birthday counts on the day itself", () => {
  expect(completedYears(date("1968-05-04"), date("2026-05-03"))).toBe(57);
  expect(completedYears(date("1968-05-04"), date("2026-05-04"))).toBe(58);
});
