import { describe, expect, test } from "vitest";
import { rateModel, type AuditTable, type LineRow } from "../../src/audit/index.ts";
import { rateModelLines } from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";
import { occlusion } from "../../reference/by-hand/count/ward-figures.ts";

// Ratios of a rate for some factors, and what wards share beyond them (Breslow and Clayton 1993). Few events are refused or
// penalised by the house's rule (Peduzzi 1996). Lines and wards are invented.

const rules = {
  limits: countLimitsFrom(defaultPolicyTable),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
};
const march = { from: on("2025-03-01"), to: on("2025-04-01"), fromOffset: 0, toOffset: 0 };

/** Lines of ten days, one or two lumens in turn; in each ward so many of the first lines were blocked. */
const tableOf = (wards: readonly (readonly [lines: number, blocked: number])[]): AuditTable => ({
  asOf: timed("2025-06-01T12:00Z"),
  referrals: [],
  lines: wards.flatMap(([lines, blocked], ward) =>
    Array.from({ length: lines }, (_, at): LineRow =>
      plainRow(`W${ward}L${at}`, "2025-03-03T12:00Z", removed("2025-03-13T12:00Z"), {
        ward: `W${ward}`,
        lumens: 1 + (at % 2),
        events: at < blocked ? [happened("occlusion", "2025-03-08")] : [],
      }),
    ),
  ),
});
const modelOf = (table: AuditTable, asked: Parameters<typeof rateModel>[5] = {}) =>
  rateModel(table, occlusion, march, ["lumens"], rules, asked);

describe("a model of a rate", () => {
  test("of one factor with two values is the ratio of the two rates", () => {
    const answer = modelOf(tableOf([[200, 31]]));
    // 15 in 1,000 days with two lumens over 16 in 1,000 with one
    expect(answer).toMatchObject({ kind: "fitted", events: 31, days: 2000, method: "Poisson" });
    expect(answer.kind === "fitted" && answer.ratios[0]?.ratio).toBeCloseTo(15 / 16, 9);
  });

  test("of four events is refused with its rule; of eight it is penalised, and says so", () => {
    const refused = modelOf(tableOf([[60, 4]]));
    expect(refused.kind).toBe("too few events");
    expect(rateModelLines(refused, 1)[0]).toBe("4 events: too few for 1 factor. No ratio is told.");
    const few = modelOf(tableOf([[60, 8]]));
    expect(few).toMatchObject({ kind: "fitted", method: "Poisson with Firth's penalty" });
    expect(rateModelLines(few, 1).join("\n")).toContain("8 events for 1 factor, 8 each: penalised");
  });

  test("draws a ratio towards one where a prior is asked for, the more the more degrees", () => {
    const table = tableOf([
      [200, 1],
      [200, 31],
    ]);
    const uneven: AuditTable = {
      ...table,
      lines: table.lines.map((row, at) => (at % 4 === 0 ? { ...row, lumens: 3 } : row)),
    };
    const size = (degrees?: number) => {
      const answer = modelOf(uneven, degrees === undefined ? {} : { priorDegrees: degrees });
      return answer.kind === "fitted" ? Math.abs(answer.ratios[0]?.logRatio ?? 0) : Number.NaN;
    };
    expect(size(2)).toBeLessThan(size());
    expect(size(20)).toBeLessThan(size(2));
  });

  test("says how far wards differ beyond chance, that few wards tell little of it, and where they do not differ", () => {
    const apart = modelOf(
      tableOf([
        [60, 4],
        [60, 30],
        [60, 6],
        [60, 24],
      ]),
      { shared: "ward" },
    );
    expect(apart.kind === "fitted" && apart.shared?.kind).toBe("fitted");
    const said = rateModelLines(apart, 1).join("\n");
    expect(said).toMatch(
      /Beyond this and chance, 4 wards differ: typically 0\.\d\d to \d\.\d\d times the middle one\./,
    );
    expect(said).toContain("4 wards are few: that spread is itself hardly known.");
    expect(said).toContain("Within one ward, lumens");
    const alike = modelOf(
      tableOf([
        [60, 10],
        [60, 11],
        [60, 9],
      ]),
      { shared: "ward" },
    );
    expect(rateModelLines(alike, 1).join("\n")).toContain("Beyond this, 3 wards differ no more than by chance.");
  });

  test("leaves out lines whose ward nobody wrote where wards share, and says how many it used", () => {
    const table = tableOf([
      [60, 10],
      [60, 11],
    ]);
    const nameless = {
      ...table,
      lines: [...table.lines, plainRow("N", "2025-03-03T12:00Z", removed("2025-03-13T12:00Z"), { lumens: 1 })],
    };
    expect(modelOf(nameless, { shared: "ward" })).toMatchObject({ used: 120, given: 121 });
    expect(modelOf(nameless)).toMatchObject({ used: 121, given: 121 });
  });
});
