import { expect, test } from "vitest";
import { instantAfter, minutesBetween, parseInstant, type Instant } from "./index.ts";

const at = (text: string) => parseInstant(text) as Instant;

// RFC 3339: the same moment less its offset is UTC; midnight and the year turn in local time.
test("minutes are added on the wall clock that showed the first moment", () => {
  expect(instantAfter(at("2025-06-03T23:50+02:00"), 30)).toBe("2025-06-04T00:20+02:00");
  expect(instantAfter(at("2025-12-31T23:59:30Z"), 1)).toBe("2026-01-01T00:00Z");
  expect(instantAfter(at("2025-03-01T00:10-05:00"), -20)).toBe("2025-02-28T23:50-05:00");
});

test("what was added lies between", () => {
  for (const minutes of [-100_000, -1, 0, 1, 59, 1440, 525_600])
    expect(minutesBetween(at("2024-02-28T22:15+05:30"), instantAfter(at("2024-02-28T22:15+05:30"), minutes))).toBe(
      minutes,
    );
});
