import { describe, expect, test } from "vitest";
import {
  audit,
  momentOfInstant,
  periodOf,
  readMeasures,
  type AuditTable,
  type Figure,
  type Measure,
} from "../../audit/index.ts";
import { readLineTable } from "../../contract/index.ts";
import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import { GREY_INK, partsPlate, spanPlate, spanValueOf } from "../../figure/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import { rulesFor } from "./count-table.ts";
import { drawnAs, spansOf } from "./plate-numbers.ts";

const reading = readMeasures();
if (reading.kind === "faults") throw new Error("the measures of the house are faulty");
const firstAttempt = reading.measures.find(({ id }) => id === "first-attempt") as Measure;

/** So many lines in at the first attempt of so many, all placed in one month. */
function tableOf(first: number, all: number, day = "2025-03-05"): AuditTable {
  const rows = Array.from({ length: all }, (_, at) => `L${at},P${at},${day},removed,2025-04-30,${at < first ? 1 : 2}`);
  const read = readLineTable(
    ["line_key,patient_key,placed_at,end_kind,end_at,attempts", ...rows].join("\n"),
    momentOfInstant("2026-01-01T12:00Z" as Instant),
  );
  if (read.kind === "faults") throw new Error(JSON.stringify(read));
  return read.table;
}

function drawn(table: AuditTable, from: string, to: string) {
  const period = periodOf(table, from as CivilDate, to as CivilDate);
  const rules = rulesFor(defaultPolicy, period);
  if (!rules) throw new Error("no rule of that time");
  const whole = audit(table, [firstAttempt], period, [], rules).figures[0] as Figure;
  return { period, rules, whole, asked: { table, measure: firstAttempt, period, rules } };
}

describe("a share is drawn with its exact limits and with what it is of", () => {
  // Newcombe 1998, Stat Med 17:857, table I, method 5 (Clopper and Pearson), from memory: 81/263 0.2527 to 0.3676,
  // 15/148 0.0578 to 0.1617, 0/20 0.0000 to 0.1684, 1/29 0.0009 to 0.1776
  test.each([
    [81, 263, 0.2527, 0.3676],
    [15, 148, 0.0578, 0.1617],
    [0, 20, 0, 0.1684],
    [1, 29, 0.0009, 0.1776],
  ])("%i of %i", (first, all, lower, upper) => {
    const { asked, whole } = drawn(tableOf(first, all), "2025-03-01", "2025-04-01");
    const figure = spanPlate({
      id: "t",
      title: "In at the first attempt",
      ...drawnAs(whole, firstAttempt),
      ...spansOf(asked, 12),
      width: 320,
      ink: GREY_INK,
    });
    const limits = /data-lower="([\d.e-]+)" data-upper="([\d.e-]+)"/.exec(figure.svg);
    expect(Number(limits?.[1])).toBeCloseTo(lower, 4);
    expect(Number(limits?.[2])).toBeCloseTo(upper, 4);
    expect(figure.svg).toContain(`data-counted="${first}" data-over="${all}"`);
    expect(figure.table.rows[0]?.slice(1, 3)).toEqual([String(first), String(all)]);
    expect(figure.svg).toContain("strokes: exact binomial, 95\u202f%");
    // nought is drawn open, as in the rates
    expect(figure.svg.includes(`fill="${GREY_INK.paper}"`)).toBe(first === 0);
  });

  test("its parts carry the same limits and their own number, in no order of merit", () => {
    const { whole, rules } = drawn(tableOf(81, 263), "2025-03-01", "2025-04-01");
    const { svg, table, sentence } = partsPlate({
      id: "p",
      title: "In at the first attempt",
      ...drawnAs(whole, firstAttempt),
      parts: [
        { ...spanValueOf(whole), name: "ward Z" },
        { ...spanValueOf(whole), name: "ward A" },
      ],
      width: 320,
      ink: GREY_INK,
    });
    expect(rules.limits.level).toBe(0.95);
    expect(svg.match(/data-lower="0\.2527\d*" data-upper="0\.3676\d*"/g)).toHaveLength(2);
    expect(svg).toContain(">81 in 263</text>");
    expect(table.rows.map(([name]) => name)).toEqual(["ward Z", "ward A"]);
    expect(sentence).toContain("no order of merit");
  });
});

describe("a long period is drawn in longer spans", () => {
  // common practice, no source: no more columns than there is room for
  const table = tableOf(3, 10);
  test.each([
    ["2025-01-01", "2026-01-01", 12, "month", ["Jan 25", "Dec 25"]],
    ["2024-01-15", "2025-12-20", 12, "quarter", ["Q1 24", "Q4 25"]],
    ["2016-05-01", "2025-12-20", 12, "year", ["2016", "2025"]],
    ["2016-05-01", "2025-12-20", 4, "five years", ["2016 to 19", "2025 to 29"]],
  ] as const)("%s to %s in at most %i", (from, to, most, each, [first, last]) => {
    const { asked } = drawn(table, from, to);
    const { spans, each: told } = spansOf(asked, most);
    expect(told).toBe(each);
    expect(spans.length).toBeLessThanOrEqual(most);
    expect([spans[0]?.name, spans.at(-1)?.name]).toEqual([first, last]);
    // no day is lost between two spans
    expect(spans.reduce((sum, { over }) => sum + over, 0)).toBe(10);
  });
});
