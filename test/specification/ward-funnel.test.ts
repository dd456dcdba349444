import { describe, expect, test } from "vitest";
import { wardFunnel, type WardFunnel } from "../../src/audit/index.ts";
import { GREY_INK, wardFunnelPlate } from "../../src/figure/index.ts";
import { funnelLines, wardSentences } from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable } from "../../src/policy/index.ts";
import { occlusion, wardFigures } from "../../reference/by-hand/count/ward-figures.ts";

// A funnel says which ward stands outside what chance allows, and what chance alone would do: Spiegelhalter DJ 2005, Stat
// Med 24:1185. Wards and numbers are invented; the tails are those of R (reference/independent/shrinkage/ward-funnel).

const limits = countLimitsFrom(defaultPolicyTable);
const ward = (name: string, events: number, days: number) => ({ ward: name, events, days });
const funnelOf = (wards: readonly ReturnType<typeof ward>[]): WardFunnel => {
  const funnel = wardFunnel(wardFigures(wards), occlusion, limits);
  if (!funnel) throw new Error("no funnel");
  return funnel;
};
const plateOf = (funnel: WardFunnel, width = 880) =>
  wardFunnelPlate({ ...funnel, id: "w", title: "Blocked lines", width, ink: GREY_INK });

const alike = [ward("A", 10, 2000), ward("B", 12, 2100), ward("C", 5, 1000)];
const one = [ward("A", 10, 2000), ward("B", 40, 2100), ward("C", 5, 1000)];

describe("wards against each other", () => {
  test("where all are alike, it says so, and what chance and a doubling would do", () => {
    const funnel = funnelOf(alike);
    expect(funnel.wards.every(({ stands }) => stands === "within")).toBe(true);
    const said = funnelLines(funnel).join("\n");
    // a tail of whole counts lies below its limit, so that more than 95 are kept
    expect(said).toContain("keep at least 95 in 100 wards");
    expect(said).toContain("No ward stands outside chance, of 3 judged.");
    expect(said).toContain("Chance alone puts about 0.1 of 3 outside.");
    expect(said).toMatch(/Were one ward's rate doubled, it would show: \d+ in 100 to \d+ in 100/);
    expect(said).toContain("no order of merit");
  });

  test("a ward far out is named with its count, ringed and lettered in the drawing, and never blamed", () => {
    const funnel = funnelOf(one);
    const said = wardSentences(funnel).join(" ");
    expect(said).toContain("B stands far above its limits: 40, 22.6 expected.");
    expect(said).toContain("Look at its record and its patients before its work.");
    const { svg, table } = plateOf(funnel);
    expect(svg).toContain('data-ward="B" data-stands="above"');
    expect(svg.match(/data-stands="within"/g)).toHaveLength(1);
    // the wards whose events fall short while one has most: given all events, one ward's more is the others' less
    expect(funnel.wards.filter(({ stands }) => stands === "below").map((low) => low.ward)).toEqual(["A"]);
    expect(table.rows.find(([name]) => name === "B")?.slice(1, 3)).toEqual(["40", "2,100"]);
  });

  test("a ward that expects less than one event is an open dot and is not judged", () => {
    const funnel = funnelOf([...alike, ward("D", 3, 60)]);
    const small = funnel.wards.find((point) => point.ward === "D");
    expect(small).toMatchObject({ judged: false, stands: "within" });
    expect(plateOf(funnel).svg).toContain('data-ward="D" data-stands="not judged"');
    expect(funnelLines(funnel).join("\n")).toContain("too few to judge");
  });

  test("ten wards that differ more than chance have wider limits, and it is said; nine have not", () => {
    const wide = Array.from({ length: 10 }, (_, at) => ward(`w${at}`, at % 2 === 0 ? 4 : 22, 1500));
    const ten = funnelOf(wide);
    expect(ten.spread.widen).toBe(true);
    expect(ten.wards.every(({ stands }) => stands === "within")).toBe(true);
    expect(wardSentences(ten).join(" ")).toContain("Wards differ more than chance");
    expect(plateOf(ten).svg).toContain('stroke-dasharray="1.5 3.5"');
    const nine = funnelOf(wide.slice(0, 9));
    expect(nine.spread.widen).toBe(false);
    expect(nine.wards.some(({ stands }) => stands !== "within")).toBe(true);
  });

  test("events without a ward are in no limit and are told; one ward, or no event, has no funnel", () => {
    const funnel = funnelOf([...alike, ward("not known", 9, 500)]);
    expect(funnel.events).toBe(27);
    expect(wardSentences(funnel).join(" ")).toContain("No ward is written for 9 events; they are left out.");
    expect(wardFunnel(wardFigures([ward("A", 3, 900)]), occlusion, limits)).toBeUndefined();
    expect(wardFunnel(wardFigures([ward("A", 0, 900), ward("B", 0, 900)]), occlusion, limits)).toBeUndefined();
  });

  test("at 360 px every ward outside keeps its name, inside the frame", () => {
    const { svg } = plateOf(funnelOf(one), 328);
    const names = [...svg.matchAll(/<text x="([\d.]+)"[^>]*>([ABC])<\/text>/g)].map(([, x, name]) => [name, Number(x)]);
    expect(names.map(([name]) => name)).toEqual(expect.arrayContaining(["A", "B"]));
    for (const [, x] of names) expect(x as number).toBeLessThan(328);
  });
});
