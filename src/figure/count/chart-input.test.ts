import { expect, test } from "vitest";
import type { CivilDate } from "../../core/calendar/index.ts";
import { chartInput } from "./chart-input.ts";

// Poisson tail, mean 2: P(X >= 7) = 0.0045, P(X >= 8) = 0.0011; mean 10: P(X <= 1) = 0.0005, P(X <= 2) = 0.0028.
// Tables of the cumulative Poisson distribution, as in any handbook of quality control (from memory).
const day = (text: string): CivilDate => text as CivilDate;
const chart = (perThousand: number, lineDays: number, events: number) => ({
  plan: { base: { perThousand } },
  spans: [
    {
      from: day("2025-01-01"),
      events,
      lineDays,
      point: { rate: events / lineDays, signal: undefined },
    },
  ],
  gaps: [{ on: day("2025-01-01") }, { on: day("2025-01-31") }],
});
const now = { from: day("2025-01-01"), to: day("2025-02-01") };

test("the upper limit lies between the last count that is chance and the first that signals", () => {
  const span = chartInput(chart(2, 1000, 7), now, 0.00135)?.spans[0];
  expect(span?.upper).toBeCloseTo(7.5);
  expect(span?.lower).toBeUndefined();
});

test("the lower limit exists only where so few would be surprising", () => {
  const span = chartInput(chart(10, 1000, 1), now, 0.00135)?.spans[0];
  expect(span?.lower).toBeCloseTo(1.5);
});

test("each event stands in the middle of its day", () => {
  const [first, last] = chartInput(chart(2, 1000, 7), now, 0.00135)?.eventShares ?? [];
  expect(first).toBeCloseTo(0.5 / 31);
  expect(last).toBeCloseTo(30.5 / 31);
});

test("without an event in the base there is no chart", () => {
  expect(chartInput(chart(0, 1000, 0), now, 0.00135)).toBeUndefined();
});
