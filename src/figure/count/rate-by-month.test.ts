import { expect, test } from "vitest";
import { PAGE_INK } from "../plate/index.ts";
import { rateByMonth, rateSpan, type RateMonth } from "./rate-by-month.ts";

// A column's words stand upright, 12 px high: two rows of them closer than 14 px run into each other. Common practice, no
// source: a page is read at arm's length, and no letter may lie on another.

const spans = (many: number): readonly RateMonth[] =>
  Array.from({ length: many }, (_, at) => ({
    name: `s${at}`,
    events: at % 4,
    days: 300,
    perThousand: (1000 * (at % 4)) / 300,
    lower: 0,
    upper: 40,
    provisional: false,
  }));

test.each([
  // a year by months on a page; three years by months; thirty by years
  [12, 880, "month"],
  [12, 320, "month"],
  [36, 880, "month"],
  [120, 880, "quarter"],
  [240, 880, "year"],
  [36, 320, "quarter"],
  [72, 320, "year"],
  [360, 320, "five years"],
  [1800, 880, "five years"],
] as const)("of %i months on %i px the plate is told by the %s", (months, width, span) => {
  expect(rateSpan(months, width).span).toBe(span);
});

test("no names of two columns lie on each other, at any width and over any time", () => {
  for (const width of [300, 360, 560, 880])
    for (const months of [1, 12, 24, 60, 120, 240, 600, 1800]) {
      const { span, months: size } = rateSpan(months, width);
      const many = Math.ceil(months / size);
      const { svg } = rateByMonth({
        id: "p",
        title: "Blocked lines",
        clock: "exact line-days",
        span,
        months: spans(many),
        width,
        ink: PAGE_INK,
      });
      const at = [...svg.matchAll(/translate\(([\d.]+) [\d.]+\) rotate\(-90\)/g)].map(([, x]) => Number(x));
      const places = [...new Set(at)].sort((a, b) => a - b);
      for (const [next, x] of places.entries())
        if (next > 0)
          expect(x - (places[next - 1] as number), `${months} on ${width}`).toBeGreaterThanOrEqual(14 - 1e-6);
    }
});

test("the sentence, the table and the caption say which span it is", () => {
  const drawn = rateByMonth({
    id: "p",
    title: "Blocked lines",
    clock: "exact line-days",
    span: "year",
    months: spans(20),
    width: 880,
    ink: PAGE_INK,
  });
  expect(drawn.sentence).toContain("year by year.");
  expect(drawn.table.columns[0]).toBe("Year");
  expect(drawn.svg).toContain("by year, for months do not fit");
});
