import { expect, test } from "vitest";
import { audit, drawnTogether, learningCurve, checkTable, readMeasures, type Measure } from "../../src/audit/index.ts";
import { drawnLines, learningLines } from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";

// Groups of few lines jump by chance; drawn towards the service they do so less. Shares by the beta-binomial of Griffiths 1973,
// rates by the gamma of Clayton and Kaldor 1987. How far is told by a hand's reading: between the own figure and the common one.

const rules = {
  limits: countLimitsFrom(defaultPolicyTable),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
};
const reading = readMeasures();
const measure = (id: string) =>
  (reading.kind === "measures" ? reading.measures : []).find((one) => one.id === id) as Measure;
const march = { from: on("2025-03-01"), to: on("2025-04-01"), fromOffset: 0, toOffset: 0 };

/** Wards with lines of ten days, some blocked, some in at the second attempt; each ward's lines were placed by its own person. */
const tableOf = (wards: Readonly<Record<string, readonly [lines: number, blocked: number, missed: number]>>) => ({
  asOf: timed("2025-05-15T12:00Z"),
  referrals: [],
  lines: Object.entries(wards).flatMap(([ward, [lines, blocked, missed]]) =>
    Array.from({ length: lines }, (_, k) =>
      plainRow(`${ward}${k}`, "2025-03-03T12:00Z", removed("2025-03-13T12:00Z"), {
        ward,
        patient: `${ward}${k}`,
        inserter: `person ${ward}`,
        attempts: k < missed ? 2 : 1,
        events: k < blocked ? [happened("occlusion", "2025-03-08")] : [],
      }),
    ),
  ),
});
const wards = tableOf({ A: [60, 2, 30], B: [60, 20, 4], C: [3, 3, 3], D: [40, 8, 10] });
const figures = audit(wards, [measure("occlusion"), measure("first-attempt")], march, ["ward"], rules).figures;

test("given wards that differ, when they are drawn together, then the small ward moves most and every ward inwards", () => {
  for (const id of ["occlusion", "first-attempt"]) {
    const found = drawnTogether(figures, measure(id), "ward", 0.95);
    if (found?.kind !== "drawn") throw new Error(`${id}: not drawn`);
    const [a, b, c] = ["A", "B", "C"].map((ward) => found.groups.find(({ value }) => value === ward)) as [
      (typeof found.groups)[number],
      (typeof found.groups)[number],
      (typeof found.groups)[number],
    ];
    expect(c.ownWeight).toBeLessThan(a.ownWeight);
    const [high, low] = id === "occlusion" ? [c, a] : [b, c];
    expect(high.drawn).toBeLessThan(high.raw);
    expect(low.drawn).toBeGreaterThan(low.raw);
    expect(Math.abs(c.drawn - c.raw)).toBeGreaterThan(Math.abs(a.drawn - a.raw));
    const said = drawnLines(found, id === "occlusion").join("\n");
    expect(said).toContain("small groups pulled towards the service");
    expect(said).toContain(id === "occlusion" ? "Limits at 95 in 100" : "Limits are each group's own (exact, 95 %)");
  }
});

test("given wards that differ no more than chance, when they are drawn together, then all have the figure of the service", () => {
  const alike = tableOf({ A: [40, 4, 8], B: [40, 5, 8], C: [20, 2, 4] });
  const both = audit(alike, [measure("occlusion"), measure("first-attempt")], march, ["ward"], rules).figures;
  // 11 blocked in 1000 days; 80 of 100 at the first attempt
  expect(drawnTogether(both, measure("occlusion"), "ward", 0.95)).toMatchObject({
    kind: "alike",
    by: "ward",
    common: 11,
    groups: 3,
  });
  const shares = drawnTogether(both, measure("first-attempt"), "ward", 0.95);
  expect(shares).toMatchObject({ kind: "alike", common: 0.8 });
  expect(shares && drawnLines(shares, false)[0]).toContain("3 groups differ no more than chance. All: 80");
});

test("given one group, nobody with the event, or all, then nothing is drawn", () => {
  const one = audit(tableOf({ A: [9, 3, 1] }), [measure("occlusion")], march, ["ward"], rules).figures;
  expect(drawnTogether(one, measure("occlusion"), "ward", 0.95)).toBeUndefined();
  const none = audit(
    tableOf({ A: [9, 0, 0], B: [5, 0, 0] }),
    [measure("occlusion"), measure("first-attempt")],
    march,
    ["ward"],
    rules,
  );
  expect(drawnTogether(none.figures, measure("occlusion"), "ward", 0.95)).toBeUndefined();
  expect(drawnTogether(none.figures, measure("first-attempt"), "ward", 0.95)).toBeUndefined();
});

test("given a person of three lines, when the learning curve is said, then the share of misses is pulled off the whole", () => {
  const { facts } = checkTable(wards, rules.limits, rules.surveillance);
  const own = learningCurve(facts, "person C", rules.limits);
  // 3 of 3 alone, 47 of 163 in all
  expect(own.drawnShare).toBeGreaterThan(47 / 163);
  expect(own.drawnShare).toBeLessThan(0.8);
  expect(learningLines(own).join("\n")).toContain("Misses pulled towards the service");
  const even = checkTable(tableOf({ A: [40, 0, 8], B: [40, 0, 8] }), rules.limits, rules.surveillance);
  expect(learningCurve(even.facts, "person A", rules.limits).drawnShare).toBeUndefined();
  expect(learningCurve(even.facts, "nobody", rules.limits).drawnShare).toBeUndefined();
});

test("given rates of wards, when they are drawn, then each has limits, and the highest is told with its chance and no order", () => {
  const found = drawnTogether(figures, measure("occlusion"), "ward", 0.95);
  const limited = found?.limited ?? [];
  expect(limited.map(({ value }) => value)).toEqual(["A", "B", "C", "D"]);
  for (const { drawn, lower, upper } of limited) {
    expect(lower).toBeLessThan(drawn);
    expect(upper).toBeGreaterThan(drawn);
  }
  // a ward of 30 days is known less well than one of 600
  const wide = (ward: string) => {
    const { lower, upper } = limited.find(({ value }) => value === ward) as (typeof limited)[number];
    return upper / lower;
  };
  expect(wide("C")).toBeGreaterThan(wide("B"));
  expect(limited.reduce((sum, { highest = 0 }) => sum + highest, 0)).toBeCloseTo(1, 6);
  const said = found ? drawnLines(found, true).join("\n") : "";
  expect(said).toContain("The highest of all is most likely C");
  expect(said).toContain("the order of wards is not known");
});

test("given people, when they are drawn together, then no limits and no chance of a place stand beside them", () => {
  const own = audit(wards, [measure("occlusion")], march, ["inserter", "lumens"], rules).figures;
  const found = drawnTogether(own, measure("occlusion"), "inserter", 0.95);
  expect(found?.kind).toBe("drawn");
  expect(found?.limited).toBeUndefined();
  expect(found && drawnLines(found, true).join("\n")).not.toMatch(/highest|order/);
});

test("given shares of wards, when they are drawn, then each stands with its number and its own exact limits, and people have none", () => {
  // Newcombe RG 1998, Stat Med 17:857, the exact limits of 15 of 148 and of 0 of 20 (to four decimals from memory)
  const two = tableOf({ A: [148, 0, 133], B: [20, 0, 20] });
  const shares = audit(two, [measure("first-attempt")], march, ["ward", "inserter"], rules).figures;
  const found = drawnTogether(shares, measure("first-attempt"), "ward", 0.95);
  const [a, b] = found?.alone ?? [];
  expect([a?.count, a?.over, b?.count, b?.over]).toEqual([15, 148, 0, 20]);
  expect(b?.upper).toBeCloseTo(0.168433471, 8);
  expect(a?.lower).toBeCloseTo(0.0578, 3);
  expect(a?.upper).toBeCloseTo(0.1617, 3);
  expect(found && drawnLines(found, false).join("\n")).toMatch(/B: 0 of 20 alone \(0\.0 % to 16\.8 %\)/);
  expect(drawnTogether(shares, measure("first-attempt"), "inserter", 0.95)?.alone).toBeUndefined();
});
