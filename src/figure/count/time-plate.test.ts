import { describe, expect, test } from "vitest";
import type { CivilDate } from "../../core/calendar/index.ts";
import { GREY_INK } from "../plate/index.ts";
import { chartInput, timeInput } from "./chart-input.ts";
import { timePlate } from "./time-plate.ts";

// What a plate of time must show: common practice, no source.
const day = (text: string): CivilDate => text as CivilDate;
const now = { from: day("2025-01-01"), to: day("2025-03-01") };
const span = (from: string, events: number) => ({
  from: day(from),
  events,
  lineDays: 1000,
  point: { rate: events / 1000, signal: undefined },
});
const point = (on: string, sum: number, signal = false) => ({ on: day(on), sum, signal });
const chart = {
  plan: { base: { perThousand: 2 } },
  spans: [span("2025-01-01", 2), span("2025-02-01", 4)],
  gaps: [{ on: day("2025-01-10") }],
  watch: {
    decision: 2.5,
    points: [
      point("2024-12-31", 9),
      point("2025-01-10", 0.7),
      point("2025-01-20", 2.6, true),
      point("2025-01-31", 0.2),
      point("2025-02-20", 1.25),
    ],
  },
};
const changes = [
  { number: 1, on: day("2025-01-15"), words: "New <dressing>" },
  { number: 2, on: day("2025-01-16"), words: "New staff" },
  { number: 3, on: day("2026-01-01"), words: "later" },
];
const plateOf = (watch: typeof chart.watch | undefined, given = changes, width = 880) => {
  const input = timeInput({ ...chart, watch }, now, 0.00135, { changes: given, provisionalFrom: day("2025-02-15") });
  if (!input) throw new Error("no chart");
  return timePlate({ id: "t", title: "Clots seen", clock: "line-days", ...input, width, ink: GREY_INK });
};

describe("a plate of time", () => {
  test("holds the path of the period alone, and says how often it signals and where it ends", () => {
    const { sentence, svg } = plateOf(chart.watch);
    expect(sentence).toContain("The sum signals once; it ends at 1.25 of 2.50.");
    expect(svg.match(/data-sum-signal/g)).toHaveLength(1);
    // the path falls to zero after the signal: what follows begins a piece of its own
    expect(svg.match(/<path[^>]*stroke-linejoin="round"/g)).toHaveLength(3);
    expect(svg).toContain('stroke-dasharray="1.5 2.5"');
  });

  test("marks the changes of the period by their numbers, side by side where they would touch", () => {
    const { svg, sentence } = plateOf(chart.watch);
    const heads = [...svg.matchAll(/<circle cx="([\d.]+)"[^>]*data-change="(\d)"/g)].map(([, x, number]) => [
      Number(x),
      number,
    ]);
    expect(heads.map(([, number]) => number)).toEqual(["1", "2"]);
    expect((heads[1]?.[0] as number) - (heads[0]?.[0] as number)).toBeGreaterThanOrEqual(15);
    expect(sentence).toContain("Mark 2: New staff.");
    expect(svg).not.toContain("<dressing>");
  });

  test("its table has the sum at the end of each span, its signals and its changes", () => {
    const { table } = plateOf(chart.watch);
    expect(table.columns.slice(-3)).toEqual(["Sum at the end", "Signals by the sum", "Changes"]);
    expect(table.rows.map((row) => row.slice(-3))).toEqual([
      ["0.20", "1", "1, 2"],
      ["1.25", "0", ""],
    ]);
  });

  test("without a sum the chart stands alone and says nothing of one", () => {
    const { sentence, svg, table } = plateOf(undefined, []);
    expect(sentence).not.toContain("sum");
    expect(svg).not.toContain("data-sum-signal");
    expect(table.rows[0]?.slice(-3)).toEqual(["none", "0", ""]);
    expect(chartInput(chart, now, 0.00135)?.spans).toHaveLength(2);
  });

  test("on a narrow page the plate stays inside its width", () => {
    const { svg } = plateOf(chart.watch, changes, 320);
    expect(svg).toMatch(/viewBox="0 0 320 /);
  });
});
