import { describe, expect, test } from "vitest";
import { monthPack, partGuards, readMeasures, type AuditTable, type LineRow } from "../../src/audit/index.ts";
import type { Instant } from "../../src/core/calendar/index.ts";
import { packPages } from "../../src/language/index.ts";
import { packSheets } from "../../src/paper/index.ts";
import { countLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../src/policy/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";
import { occlusion } from "../../reference/by-hand/count/ward-figures.ts";

// What a pack says of its own doubt: warnings beside its figures, and the way to a base in a first year. The shares that
// warn and the events a base needs are common practice, no source.

const limits = countLimitsFrom(defaultPolicy.table);
const rules = { limits, surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number] };
const read = readMeasures();
if (read.kind === "faults") throw new Error("measures");
const { measures } = read;
const tableOf = (lines: readonly LineRow[], asOf = "2026-02-01T12:00Z"): AuditTable => ({
  asOf: timed(asOf),
  referrals: [],
  lines,
});
const packOf = (lines: readonly LineRow[], month = "2025-12-01") =>
  monthPack(tableOf(lines), measures, on(month), rules);
const printing = { policy: defaultPolicy, printedAt: "2026-02-01T09:00+00:00" as Instant, practice: false };
const pageText = (pack: ReturnType<typeof packOf>, page: number): string =>
  JSON.stringify(packSheets(pack, measures, printing)[page]?.blocks).replaceAll("\\u202f", " ");

/** A line of ten days from a day of December 2025, blocked where asked. */
const line = (key: string, day: string, more: Partial<LineRow> = {}): LineRow =>
  plainRow(key, `2025-12-${day}T12:00Z`, removed(`2025-12-${Number(day) + 10}T12:00Z`), more);
const blockedOn = (day: string) => ({ events: [happened("occlusion", `2025-12-${day}`)] });

describe("a warning beside a figure of the pack", () => {
  const lines = [
    line("A1", "03", { ward: "A", patient: "one", ...blockedOn("05") }),
    line("A2", "14", { ward: "A", patient: "one", ...blockedOn("16") }),
    ...["04", "05", "06", "07", "08", "09"].map((day) =>
      line(`B${day}`, day, { ward: "B", ...(day === "04" ? blockedOn("09") : {}) }),
    ),
    // all of December and more: 31 of its days
    plainRow("C1", "2025-11-20T12:00Z", removed("2026-01-20T12:00Z"), { ward: "C" }),
  ];

  test("stands in the event's own row, with both counts, and its rule under the table", () => {
    const first = pageText(packOf(lines), 0);
    expect(first).toContain("one person has 2 of 3");
    expect(first).toContain("Where one person has more than 20 in 100 of the events, read that story first");
    // eight lines of ten days and one of 31: 31 of 111
    expect(first).toContain("This month one line has 31 of 111 exact line-days: look at it alone.");
    expect(first).toContain("The limit is 20 in 100 (common practice, your policy).");
  });

  test("is a star in a part's cell and a sentence under the tables; a quiet part has none", () => {
    const guards = partGuards(tableOf(lines), occlusion, packOf(lines).year.period, ["ward"], rules);
    expect(guards.find(({ value }) => value === "A")?.guards).toEqual([
      { guard: "daysOfOneLine", part: 10, whole: 20, limit: 0.2 },
      { guard: "eventsOfOnePerson", part: 2, whole: 2, limit: 0.2 },
    ]);
    // six lines of ten days, one event
    expect(guards.find(({ value }) => value === "B")).toBeUndefined();
    const third = pageText(packOf(lines), 2);
    expect(third).toMatch(/2 in 20; [\d.]+ to [\d,.]+ \*/);
    expect(third).toMatch(/1 in 60; [\d.]+ to [\d.]+(\\n|")/);
    expect(third).toContain("blocked lines, ward A, 2 of 2");
    expect(third).toContain("ward A, 10 of 20");
  });

  test("is said by the command as well, under the figure", () => {
    const [month] = packPages(packOf(lines), measures, [], limits);
    const said = month?.lines ?? [];
    const figure = said.findIndex((one) => one.startsWith("Blocked lines: 3 in"));
    expect(said.slice(figure, figure + 5).join(" ")).toContain("One person has 2 of 3 events. Read that story first.");
  });

  test("a rate of fewer than five events and a share of fewer than thirty lines are refused by their rules", () => {
    const first = pageText(packOf(lines), 0);
    expect(first).toContain("Under 5 events no rate is told, only its limits (common practice, your policy).");
    expect(first).toContain("Of fewer than 30 lines no percentage is told");
  });
});

/** Lines of a day each through the days of a year from January 2025; every so manyth has the event. */
function yearOf(days: number, kinds: Readonly<Record<string, number>>): readonly LineRow[] {
  const first = Date.UTC(2025, 0, 1);
  const text = (day: number) => new Date(first + day * 86_400_000).toISOString().slice(0, 10);
  const rows = Array.from({ length: days }, (_, day) =>
    plainRow(`L${day}`, `${text(day)}T00:00Z`, removed(`${text(day + 1)}T00:00Z`)),
  );
  for (const [kind, count] of Object.entries(kinds))
    for (let at = 0; at < count; at += 1) {
      const day = Math.floor((at * days) / count);
      const row = rows[day] as LineRow;
      const flags = kind === "infection" ? { clinical: true } : {};
      rows[day] = { ...row, events: [...row.events, happened(kind as "occlusion", `${text(day)}T12:00Z`, flags)] };
    }
  return rows;
}

describe("the second page of a first year", () => {
  test("says how soon a doubling would show, as a Markov chain worked it out apart", () => {
    // the sum of Lucas JM 1985, Technometrics 27:129, false signals five years apart, at 6, 10 and 20 events a year; the months
    // were worked out apart, by a Markov chain in R
    const { beginning } = packOf(yearOf(365, { infection: 6, thrombosis: 10, occlusion: 20 }));
    const months = beginning?.measures.map(({ plan }) => plan?.alarm?.monthsToShow ?? Number.NaN) ?? [];
    expect(months).toHaveLength(3);
    for (const [at, asChained] of [8.47, 6.29, 4.04].entries()) expect(months[at]).toBeCloseTo(asChained, 1);
    expect(pageText(packOf(yearOf(365, { infection: 6, thrombosis: 10, occlusion: 20 })), 1)).toContain(
      "about 8 months to show",
    );
  });

  test("says how many events a base still needs and when, at the pace and at its exact limits", () => {
    const lines = yearOf(100, { occlusion: 5 });
    const { beginning } = monthPack(tableOf(lines, "2025-04-10T12:00Z"), measures, on("2025-04-01"), rules);
    const one = beginning?.measures.find(({ measure }) => measure === "occlusion");
    expect(beginning?.needed).toBe(20);
    expect(beginning?.firstPack).toBe("2026-01-01");
    // 15 more at 5 in 100 days; Garwood 1936 for 5 events: 1.62348639 to 11.6683321
    expect(one?.daysToGo?.pace).toBeCloseTo(300, 9);
    expect(one?.daysToGo?.soonest).toBeCloseTo(1500 / 11.6683321, 4);
    expect(one?.daysToGo?.latest).toBeCloseTo(1500 / 1.62348639, 3);
    // the last of the hundred ends after the table: 99 count
    expect(one?.linesToGo).toBeCloseTo((15 * 99) / 5, 9);
    const said = packPages(
      monthPack(tableOf(lines, "2025-04-10T12:00Z"), measures, on("2025-04-01"), rules),
      measures,
      [],
      limits,
    );
    // 300 days after 11 April 2025
    expect(said[1]?.lines.join(" ")).toContain("15 more, at this pace by Feb 2026, about 297 lines more.");
  });

  test("foretells nothing of a kind without an event, and sets no alarm under three a year", () => {
    const text = pageText(packOf(yearOf(365, { occlusion: 2 })), 1);
    expect(text).toContain("Under 3 a year no alarm is set (common practice, your policy)");
    const quiet = [...yearOf(200, { occlusion: 1 })];
    const second = pageText(monthPack(tableOf(quiet), measures, on("2025-06-01"), rules), 1);
    expect(second).toMatch(/by [A-Z][a-z]{2} 20\d\d|not within twenty years/);
    // an infection is written after the month: known to be asked, and none until then
    const later = quiet.map((row, at) =>
      at === 190 ? { ...row, events: [happened("infection", "2025-07-10T12:00Z", { clinical: true })] } : row,
    );
    expect(pageText(monthPack(tableOf(later), measures, on("2025-06-01"), rules), 1)).toContain(
      "without an event nothing can be foretold",
    );
  });

  test("says so while there is no line at all, on four whole pages", () => {
    const sheets = packSheets(packOf([]), measures, printing);
    expect(sheets).toHaveLength(4);
    expect(JSON.stringify(sheets[1]?.blocks)).toContain("No line is written yet.");
  });
});
