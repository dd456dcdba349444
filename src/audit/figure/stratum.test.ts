import { expect, test } from "vitest";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { ageBand, firstOfMonth, periodOf } from "./index.ts";
import { ratioBand } from "./stratum.ts";

const date = (text: string) => parseCivilDate(text) as CivilDate;

test("a ratio at an edge is within it, one above is over it", () => {
  const edges = [100 / 3, 45];
  expect([0.2, 1 / 3, 0.34, 0.45, 0.4505].map((ratio) => ratioBand(ratio, edges))).toEqual([
    "up to 33.3 %",
    "up to 33.3 %",
    "33.3 to 45 %",
    "33.3 to 45 %",
    "over 45 %",
  ]);
});

test("whole years fall into bands closed below", () => {
  expect([0, 1, 17, 18, 79, 80, 101].map((years) => ageBand(years, [1, 18, 40, 65, 80]))).toEqual([
    "under 1",
    "1 to 17",
    "1 to 17",
    "18 to 39",
    "65 to 79",
    "80 and over",
    "80 and over",
  ]);
});

test("months are counted across the turn of a year", () => {
  expect(firstOfMonth(date("2025-01-31"), -1)).toBe("2024-12-01");
  expect(firstOfMonth(date("2025-12-15"), 1)).toBe("2026-01-01");
  expect(firstOfMonth(date("2025-12-15"), -12)).toBe("2024-12-01");
});

test("a period that ends before it begins is refused", () => {
  const table = { asOf: { precision: "date" as const, date: date("2025-06-01") }, lines: [], referrals: [] };
  expect(() => periodOf(table, date("2025-04-01"), date("2025-03-01"))).toThrow("the end must come after");
});
