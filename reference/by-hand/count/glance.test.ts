import { describe, expect, test } from "vitest";
import {
  audit,
  directionOf,
  glance,
  neverWritten,
  periodOf,
  type AuditTable,
  type LineRow,
  type Measure,
} from "../../../src/audit/index.ts";
import { glanceHeadline, glanceLines } from "../../../src/language/index.ts";
import { day, golden, limits, measures, surveillance, table as year } from "../../independent/count/counted-year.ts";
import { happened, plainRow, removed, timed } from "./plain-row.ts";

const rules = { limits, surveillance };
const all = measures();
const clots = all.find(({ id }) => id === "thrombosis") as Measure;
const over = (numerator: number, denominator: number) => ({ numerator, denominator });

describe("Whether a rate stands apart from the time before", () => {
  // Rothman and Greenland, Modern Epidemiology, breast cancer and fluoroscopy: 41 in 28,010 and 15 in 19,017 (from
  // memory); R 4.2 poisson.test(c(41, 15), c(28010, 19017)) gives 1.005684 to 3.609300, with 40 it gives 0.9785439 to 3.5281379
  test("is told at the last event that makes it so, and not one before", () => {
    expect(directionOf(over(41, 28_010), over(15, 19_017), clots, limits.level)).toBe("higher");
    expect(directionOf(over(40, 28_010), over(15, 19_017), clots, limits.level)).toBe("cannot tell");
    expect(directionOf(over(15, 19_017), over(41, 28_010), clots, limits.level)).toBe("lower");
  });

  test("is not asked without days, nor of a share, and cannot be told of nothing", () => {
    expect(directionOf(over(4, 0), over(2, 100), clots, limits.level)).toBeUndefined();
    expect(directionOf(over(0, 900), over(0, 900), clots, limits.level)).toBe("cannot tell");
    const share = all.find(({ id }) => id === "first-attempt") as Measure;
    expect(directionOf(over(9, 10), over(1, 10), share, limits.level)).toBeUndefined();
  });
});

/** So many clots, each on a line of its own that lay for ten days of a month. */
const month = (name: string, of: string, lines: number, withClot: number): readonly LineRow[] =>
  Array.from({ length: lines }, (_, at) =>
    plainRow(`${name}${at}`, `${of}-05T10:00+01:00`, removed(`${of}-15T10:00+01:00`), {
      events: at < withClot ? [happened("thrombosis", `${of}-10T12:00+01:00`)] : [],
    }),
  );
const tableWith = (lines: readonly LineRow[]): AuditTable => ({
  asOf: timed("2025-12-31T10:00+01:00"),
  lines,
  referrals: [],
});
const seen = (lines: readonly LineRow[], from: string, to: string) => {
  const table = tableWith(lines);
  return glance(audit(table, all, periodOf(table, day(from), day(to)), [], rules), table, all, rules);
};

describe("A period at a glance", () => {
  test("leads with what stands apart, and holds whole months against whole months", () => {
    // R 4.2 poisson.test(c(12, 2), c(1000, 1000)): the ratio 1.335744 to 55.197091, so the rise is told
    const told = seen(
      [...month("a", "2025-02", 100, 2), ...month("b", "2025-03", 100, 12)],
      "2025-03-01",
      "2025-04-01",
    );
    expect(told.before).toMatchObject({ from: "2025-02-01", to: "2025-03-01" });
    expect(glanceHeadline(told)).toContain("Clots seen, higher: 12");
    expect(glanceLines(told)[0]).toBe("100 lines placed, 100 out, 0 still in.");
  });

  test("says so when nothing stands apart and when nothing lies before", () => {
    const even = seen([...month("a", "2025-02", 100, 4), ...month("b", "2025-03", 100, 5)], "2025-03-01", "2025-04-01");
    expect(glanceHeadline(even)).toBe("Nothing can be told apart from the time before.");
    const alone = seen(month("b", "2025-03", 100, 5), "2025-03-01", "2025-04-01");
    expect(glanceHeadline(alone)).toBe("Nothing lies before this period to hold it against.");
  });

  test("holds as many days before where the period is not whole months", () => {
    expect(seen(month("b", "2025-03", 5, 0), "2025-03-04", "2025-03-18").before.from).toBe("2025-02-18");
  });

  test("names the kinds of which the whole table holds not one, and never one it holds", () => {
    const told = seen(month("b", "2025-03", 20, 1), "2025-03-01", "2025-04-01");
    expect(told.neverWritten).toEqual([
      "infection-surveillance",
      "infection-without-mucosal",
      "infection-clinical",
      "infection-paired-culture",
      "occlusion",
      "migration",
      "dislodgement",
      "leak-or-break",
      "exit-site-infection",
    ]);
    // all kinds together hold what one of them holds, and nothing only where none was ever written
    expect(seen(month("b", "2025-03", 20, 0), "2025-03-01", "2025-04-01").neverWritten).toContain("any-complication");
    const lines = glanceLines(told).join(" ");
    expect(lines).toContain("A zero there may mean that nobody asks.");
    expect(lines).not.toContain("clots seen");
  });

  // common practice, no source: an infection without a word about its cultures says nothing about paired cultures
  test("names a flag that no infection answers, and not one that any infection answers", () => {
    const infection = happened("infection", "2025-03-10T12:00+01:00", { clinical: true, surveillance: false });
    const lines = month("b", "2025-03", 20, 0).map((row, at) => (at === 0 ? { ...row, events: [infection] } : row));
    const told = neverWritten(tableWith(lines), all);
    expect(told).toContain("infection-paired-culture");
    expect(told).not.toContain("infection-clinical");
    expect(told).not.toContain("infection-surveillance");
    expect(neverWritten(tableWith([]), all)).toEqual([]);
  });

  test("gives R's own counts of the invented year", () => {
    const period = periodOf(year, day("2025-01-01"), day("2026-01-01"));
    const told = glance(audit(year, all, period, [], rules), year, all, rules);
    const clot = told.rates.find(({ measure }) => measure === "thrombosis");
    expect(clot?.now.numerator).toBe(golden["all thrombosis.events"]);
    expect(told.before.from).toBe("2024-01-01");
  });

  test("keeps each sentence short", () => {
    const period = periodOf(year, day("2025-01-01"), day("2026-01-01"));
    const told = glance(audit(year, all, period, [], rules), year, all, rules);
    const sentences = [glanceHeadline(told), ...glanceLines(told)].flatMap((line) => line.split(/(?<=\.) /));
    for (const sentence of sentences) expect(sentence.split(" ").length, sentence).toBeLessThanOrEqual(15);
  });
});
