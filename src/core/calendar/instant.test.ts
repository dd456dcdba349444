import { describe, expect, test } from "vitest";
import {
  civilDateOf,
  clockOf,
  instantInZone,
  instantMs,
  midnightsBetween,
  minutesBetween,
  parseInstant,
  wallClock,
  type CivilDate,
  type Instant,
} from "./index.ts";

const day = (text: string) => text as CivilDate;
const at = (text: string): Instant => {
  const instant = parseInstant(text);
  if (!instant) throw new Error(`not an instant: ${text}`);
  return instant;
};

describe("an instant", () => {
  test.each([
    // RFC 3339 section 5.8, examples
    ["1985-04-12T23:20:50.52Z", 482_196_050_520],
    ["1996-12-19T16:39:57-08:00", 851_042_397_000],
    ["1937-01-01T12:00:27.87+00:20", -1_041_337_172_130],
    ["1970-01-01T01:00+01:00", 0],
  ])("%s is %d ms", (text, ms) => expect(instantMs(at(text))).toBe(ms));

  test.each(["2026-02-30T10:00Z", "2026-11-25T24:00Z", "2026-11-25T10:60Z", "2026-11-25T10:00", "2026-11-25", ""])(
    "%j names no moment",
    (text) => expect(parseInstant(text)).toBeUndefined(),
  );

  test("the day and the clock are those of the place it happened", () => {
    expect(civilDateOf(at("2026-01-01T00:10+13:00"))).toBe("2026-01-01");
    expect(clockOf(at("2026-01-01T00:10+13:00"))).toBe("00:10");
  });
});

// The clock changes of 2025: London 30 March 01:00 and 26 October 02:00 (local), from the IANA time zone database.
describe("across a clock change", () => {
  test("an hour that was skipped has no moment, one shown twice has two", () => {
    expect(wallClock(day("2025-03-30"), "01:30", "Europe/London")).toEqual({ kind: "skipped" });
    const twice = wallClock(day("2025-10-26"), "01:30", "Europe/London");
    if (twice.kind !== "twice") throw new Error(twice.kind);
    expect(minutesBetween(twice.first, twice.second)).toBe(60);
    expect(twice.first).toBe("2025-10-26T01:30+01:00");
  });

  test("a night over the change in spring is 23 hours and one midnight", () => {
    const [evening, next] = ["2025-03-29", "2025-03-30"].map((date) => wallClock(day(date), "20:00", "Europe/London"));
    if (evening?.kind !== "one" || next?.kind !== "one") throw new Error("one each");
    expect(minutesBetween(evening.instant, next.instant)).toBe(23 * 60);
    expect(midnightsBetween(civilDateOf(evening.instant), civilDateOf(next.instant))).toBe(1);
  });

  test("a moment is written on the wall clock of a zone and reads back", () => {
    const ms = instantMs(at("2025-07-01T22:30:15Z"));
    expect(instantInZone(ms, "Asia/Kolkata")).toBe("2025-07-02T04:00:15+05:30");
    expect(instantInZone(ms, "America/New_York")).toBe("2025-07-01T18:30:15-04:00");
    expect(instantMs(instantInZone(ms, "Australia/Lord_Howe"))).toBe(ms);
  });
});
