import { describe, expect, test } from "vitest";
import { expectedComplications, type Complication, type ExpectedLine } from "../../src/core/expectation/index.ts";
import { complicationTable } from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";

const reference: ExpectedLine = { group: "adult", days: 30, features: {} };
const of = (line: ExpectedLine, complication: Complication) => {
  const all = expectedComplications(line, complicationTable);
  if (typeof all === "string") throw new Error(all);
  return all.find((one) => one.complication === complication) as (typeof all)[number];
};

checkAgainst(
  {
    quantity: "Expected complications in 100 people",
    unit: "in 100",
    source: "the banded rates added by hand: 7 x 0.73 + 7 x 0.61 + 16 x 0.37 per 1,000, and so on",
    kind: "by-hand",
    tolerance: 0.006,
    comparisons: 4,
  },
  (compare) => {
    compare("reference, 30 days, clot", of(reference, "clot").middle, 1.52);
    compare("reference, 30 days, infection", of(reference, "blood infection").middle, 1.28);
    compare(
      "10 ward days then home to 42, infection",
      of({ ...reference, days: 42, homeFromDay: 10 }, "blood infection").middle,
      1.1,
    );
    const bundle = { cancer: 1, "two lumens": 1, "ratio per 10 points over 35": 0.67 };
    // 0.0153 x exp(0.75 + 0.25 + 0.67 x 0.35)
    compare(
      "cancer, two lumens, 41.7 %",
      of({ ...reference, features: bundle }, "clot").middle,
      100 * -Math.expm1(-0.0153 * Math.exp(1.2345)),
    );
  },
);

checkAgainst(
  {
    quantity: "Range of expected clots",
    unit: "in 100",
    source: "200,000 draws of level, band and effects from their normals (seeded), 10th and 90th percentile",
    kind: "independent",
    tolerance: 0.04,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    const features = { cancer: 1, "two lumens": 1, "ratio per 10 points over 35": 0.67 } as const;
    const expected = of({ ...reference, features }, "clot");
    const { perThousand, levelSd, bandSd } = complicationTable.baselines.clot;
    let seed = 20261125;
    const uniform = () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return (seed + 0.5) / 2 ** 32;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const draws = Array.from({ length: 200_000 }, () => {
      let log = levelSd * normal();
      for (const [name, step] of Object.entries(features) as [keyof typeof features, number][])
        log += step * (complicationTable.effects[name].mean.clot + complicationTable.effects[name].sd.clot * normal());
      const hazard = [7, 7, 16].reduce(
        (sum, days, band) =>
          sum + (((perThousand[band] as number) * days) / 1000) * Math.exp((bandSd[band] as number) * normal()),
        0,
      );
      return 100 * -Math.expm1(-hazard * Math.exp(log));
    }).sort((a, b) => a - b);
    compare("low end", expected.low, draws[20_000] as number);
    compare("high end", expected.high, draws[180_000] as number);
  },
);

describe("what is refused", () => {
  test("a child, a line of no days, and ratio with French", () => {
    const refused = (line: ExpectedLine) => expectedComplications(line, complicationTable);
    expect(refused({ ...reference, group: "child" })).toBe("adult figures are not for children");
    expect(refused({ ...reference, days: 0 })).toBe("days must be above zero");
    expect(refused({ ...reference, features: { "ratio per 10 points over 35": 1, "French over 4": 1 } })).toBe(
      "ratio and French are one thing: keep the ratio",
    );
  });
});
