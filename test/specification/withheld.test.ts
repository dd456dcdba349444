import { describe, expect, test } from "vitest";
import {
  audit,
  checkTable,
  figuresForOutside,
  poolFile,
  type AuditTable,
  type LineRow,
} from "../../src/audit/index.ts";
import { sayFigure } from "../../src/language/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";
import { houseMeasures, limits, rules, surveillance } from "../../reference/house-rules.ts";

// What a reader of figures that left tries: to subtract one printed number from another. A count from one to four of
// persons is withheld (common practice, no source).

const measures = houseMeasures;
const period = { from: on("2025-03-01"), to: on("2025-05-01"), fromOffset: 0, toOffset: 0 };
const tableOf = (lines: readonly LineRow[]): AuditTable => ({ asOf: timed("2025-06-15T12:00Z"), lines, referrals: [] });

/** So many lines of a ward, with one lumen and with two. */
const ward = (name: string, one: number, two: number) =>
  Array.from({ length: one + two }, (_, at) =>
    plainRow(`${name}${at}`, "2025-03-02", removed("2025-03-20"), { ward: name, lumens: at < one ? 1 : 2 }),
  );

describe("given a ward of three lines among others", () => {
  // placed: 3 is withheld with 8, its cheapest cover; of the lines with one lumen 3 would be covered by 0 + 9 instead
  const report = audit(
    tableOf([...ward("A", 3, 0), ...ward("B", 8, 0), ...ward("C", 0, 9), ...ward("D", 9, 9)]),
    measures,
    period,
    ["ward", "lumens"],
    rules,
  );
  const { figures } = figuresForOutside(report, measures, limits.smallestShown);
  const ofLines = figures.filter(({ measure, stratum, form }) => {
    const lines = measures.find(({ id }) => id === measure)?.numerator.count === "lines";
    return lines && stratum?.by === "ward" && form !== "nothing to count over";
  });

  test("what one table of lines withholds of a split, no other prints", () => {
    const withheld = new Map<string, Set<string>>();
    for (const { measure, stratum, numerator } of ofLines) {
      const own = withheld.get(measure) ?? new Set();
      if (numerator === "withheld") own.add(stratum?.value ?? "");
      withheld.set(measure, own);
    }
    expect(withheld.get("placed")).toContain("A");
    expect(withheld.get("placed")?.size).toBeGreaterThan(1);
    for (const [measure, wards] of withheld)
      expect([measure, ...wards]).toEqual([measure, ...(withheld.get("placed") ?? [])]);
  });

  test("no row of a ward is counted beside its figure", () => {
    for (const figure of figures.filter(({ stratum }) => stratum)) {
      expect([figure.used, figure.given]).toEqual([undefined, undefined]);
      const measure = measures.find(({ id }) => id === figure.measure);
      expect(measure && sayFigure(figure, measure)).not.toMatch(/rows used|none of \d/);
    }
    expect(figures.find(({ measure, stratum }) => measure === "placed" && !stratum)).toMatchObject({ given: 38 });
  });
});

describe("given a pool file with one withheld end", () => {
  const line = (key: string, out: string, blocked: boolean) =>
    plainRow(key, "2025-03-01", removed(out), {
      side: "left arm",
      events: blocked ? [happened("occlusion", out)] : [],
    });
  const many = (key: string, count: number, out: string, blocked = false) =>
    Array.from({ length: count }, (_, at) => line(`${key}${at}`, out, blocked));
  const fileOf = (lines: readonly LineRow[]) => {
    const measure = measures.find(({ id }) => id === "occlusion");
    if (!measure) throw new Error("no such measure");
    const { facts } = checkTable(tableOf(lines), limits, surveillance);
    const asked = {
      service: "S",
      measure,
      splitBy: "side",
      strataBy: undefined,
      widthDays: 7,
      horizonDays: 70,
    } as const;
    return poolFile(facts, period, asked, rules).strata[0];
  };

  test("who is at risk does not fall by the end that is withheld", () => {
    // one blocked in the first week, nobody else leaves before the fifth: 20 less 19 would tell the one
    const told = fileOf([...many("a", 1, "2025-03-05", true), ...many("b", 19, "2025-04-02")]);
    expect(told?.ends[0]).toEqual([null]);
    expect(told?.atRisk.map(([group]) => group)).toEqual([20, null, null, null, null]);
  });

  test("where enough leave beside it, who is at risk stays", () => {
    const told = fileOf([
      ...many("a", 1, "2025-03-05", true),
      ...many("b", 6, "2025-03-06"),
      ...many("c", 13, "2025-03-12"),
    ]);
    expect(told?.ends[0]).toEqual([null]);
    expect(told?.atRisk.map(([group]) => group)).toEqual([20, 13]);
  });
});
