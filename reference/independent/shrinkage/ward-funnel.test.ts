import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { wardFunnel } from "../../../src/audit/index.ts";
import { limitsAmong, limitsWidened, tailsAmong, tailsWidened } from "../../../src/core/shrinkage/index.ts";
import { countLimitsFrom, defaultPolicyTable } from "../../../src/policy/index.ts";
import { checkAgainst, type Compare } from "../../check.ts";
import { occlusion, wardFigures } from "../../by-hand/count/ward-figures.ts";

/** Made by ward-funnel-golden.R beside this file; null where no possible count is so unlikely. */
const golden = JSON.parse(readFileSync(new URL("ward-funnel-golden.json", import.meta.url), "utf8")) as Readonly<
  Record<string, readonly (number | null)[]>
>;
const column = (name: string) => golden[name] as readonly (number | null)[];
const [events, days] = [column("events"), column("days")] as unknown as [number[], number[]];
const all = events.reduce((a, b) => a + b, 0);
const time = days.reduce((a, b) => a + b, 0);
const BETWEEN = 0.25;

const told = (name: string): number => column(name).filter((value) => value !== null).length;
function compareAll(compare: Compare, name: string, of: (unit: number) => number | undefined): void {
  for (const [unit, theirs] of column(name).entries()) {
    const ours = of(unit);
    if (theirs === null) expect(ours, `${name} of ward ${unit}`).toBeUndefined();
    else compare(`${name} of ward ${unit}`, ours ?? Number.NaN, theirs);
  }
}

checkAgainst(
  {
    quantity: "Tails of twelve wards given all their events, and widened",
    unit: "chance",
    source: "R 4.2.2, pbinom, pnbinom (ward-funnel-golden.R)",
    kind: "independent",
    tolerance: 1e-11,
    comparisons: 48,
  },
  (compare) => {
    const among = (unit: number) => tailsAmong(events[unit] as number, all, (days[unit] as number) / time);
    const wide = (unit: number) => tailsWidened(events[unit] as number, (all * (days[unit] as number)) / time, BETWEEN);
    compareAll(compare, "more", (unit) => among(unit).asManyOrMore);
    compareAll(compare, "less", (unit) => among(unit).asFewOrFewer);
    compareAll(compare, "wideMore", (unit) => wide(unit).asManyOrMore);
    compareAll(compare, "wideLess", (unit) => wide(unit).asFewOrFewer);
  },
);

checkAgainst(
  {
    quantity: "Limits of a funnel of twelve wards, between whole counts",
    unit: "events",
    source: "R 4.2.2, pbeta and uniroot (ward-funnel-golden.R)",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: ["upper", "lower", "farUpper", "farLower", "wideUpper", "wideLower"].reduce(
      (sum, name) => sum + told(name),
      0,
    ),
  },
  (compare) => {
    const among = (unit: number, tail: number) => limitsAmong(all, (days[unit] as number) / time, tail);
    const wide = (unit: number) => limitsWidened((all * (days[unit] as number)) / time, BETWEEN, 0.025);
    compareAll(compare, "upper", (unit) => among(unit, 0.025).upper);
    compareAll(compare, "lower", (unit) => among(unit, 0.025).lower);
    compareAll(compare, "farUpper", (unit) => among(unit, 0.001).upper);
    compareAll(compare, "farLower", (unit) => among(unit, 0.001).lower);
    compareAll(compare, "wideUpper", (unit) => wide(unit).upper);
    compareAll(compare, "wideLower", (unit) => wide(unit).lower);
  },
);

const wards = events.map((own, at) => ({ ward: `ward ${at}`, events: own, days: days[at] as number }));
const funnel = wardFunnel(wardFigures(wards), occlusion, countLimitsFrom(defaultPolicyTable));

checkAgainst(
  {
    quantity: "What a funnel of wards would show: a doubling in one, and false flags by chance",
    unit: "chance, or wards",
    source: "R 4.2.2, dbinom and pbinom (ward-funnel-golden.R)",
    kind: "independent",
    tolerance: 1e-10,
    comparisons: 13,
  },
  (compare) => {
    compareAll(compare, "doubling", (unit) => funnel?.wards.find(({ ward }) => ward === `ward ${unit}`)?.doublingSeen);
    compare("flags by chance", funnel?.byChance ?? Number.NaN, golden["byChance"]?.[0] ?? Number.NaN);
  },
);

test("the one ward far from the others stands above, and is named by its exact tail", () => {
  const out = funnel?.wards.filter(({ stands }) => stands !== "within") ?? [];
  expect(out.map(({ ward, stands, far }) => [ward, stands, far])).toEqual([["ward 5", "above", false]]);
  expect(out[0]?.chance).toBeCloseTo(0.00358044917924, 12);
  // twelve wards, and their spread lies below the threshold of widening: 1 + 2 sqrt(2 / 12)
  expect(funnel?.spread.widen).toBe(false);
  expect(funnel?.spread.threshold).toBeCloseTo(1.816496580927726, 12);
});
