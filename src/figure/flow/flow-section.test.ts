import { describe, expect, test } from "vitest";
import { residualFlow } from "../../core/flow/index.ts";
import { flowSection } from "./flow-section.ts";

/** Area inside closed lines of a path by the shoelace, a line inside another taken off; in the path's own units. */
function areaOf(d: string): number {
  const loops = d
    .split("Z")
    .filter((loop) => loop !== "")
    .map((loop) =>
      loop
        .split(/[ML]/)
        .filter((pair) => pair !== "")
        .map((pair) => pair.split(" ").map(Number) as [number, number]),
    );
  const signed = loops.map((loop) =>
    Math.abs(
      loop.reduce((sum, [x, y], index) => {
        const [nextX, nextY] = loop[(index + 1) % loop.length] as [number, number];
        return sum + (x * nextY - nextX * y) / 2;
      }, 0),
    ),
  );
  // a region round the catheter has an outer and an inner line; apart regions never hold one another
  const inside = (point: readonly [number, number], loop: readonly (readonly [number, number])[]) =>
    loop.reduce((odd, [x, y], index) => {
      const [nextX, nextY] = loop[(index + 1) % loop.length] as [number, number];
      const crosses = y > point[1] !== nextY > point[1] && point[0] < ((nextX - x) * (point[1] - y)) / (nextY - y) + x;
      return crosses ? !odd : odd;
    }, false);
  return loops.reduce((sum, loop, index) => {
    const holders = loops.filter((other, at) => at !== index && inside(loop[0] as [number, number], other)).length;
    return sum + (holders % 2 === 0 ? 1 : -1) * (signed[index] as number);
  }, 0);
}

/** The flow a reader would measure from the drawing: the areas between its lines, each times its velocity. */
function drawnFlow(svg: string): number {
  const radius = Number(/data-radius="([\d.]+)"/.exec(svg)?.[1]);
  const ratio = Number(/data-ratio="([\d.]+)"/.exec(svg)?.[1]);
  const areas = [...svg.matchAll(/data-level="([\d.]+)"(?: fill-opacity="[\d.]+")? d="([^"]+)"/g)]
    .map(([, level, d]) => [Number(level), areaOf(d as string) / (Math.PI * radius * radius)] as const)
    .sort(([a], [b]) => a - b);
  // the area is smooth in s = sqrt(fastest - level), also where the fastest blood lies in a ring: flow = integral 2 s A ds
  const fastest = Number(/data-fastest="([\d.]+)"/.exec(svg)?.[1]);
  const known = [[0, 1 - ratio * ratio] as const, ...areas.filter(([level]) => level < fastest), [fastest, 0] as const]
    .map(([level, area]) => [Math.sqrt(fastest - level), area] as const)
    .reverse();
  const steps = 2000;
  const top = Math.sqrt(fastest);
  let flow = 0;
  for (let index = 0; index < steps; index += 1) {
    const at = ((index + 0.5) / steps) * top;
    flow += 2 * at * through(known, at) * (top / steps);
  }
  return flow;
}

/** The value at s of the cubic through the four nearest known places. */
function through(known: readonly (readonly [number, number])[], at: number): number {
  const next = known.findIndex(([s]) => s >= at);
  const from = Math.max(0, Math.min(known.length - 4, next - 2));
  const four = known.slice(from, from + 4);
  return four.reduce((sum, [s, area]) => {
    const weight = four.reduce(
      (product, [other]) => (other === s ? product : (product * (at - other)) / (s - other)),
      1,
    );
    return sum + area * weight;
  }, 0);
}

const assumed = { wallMm: 0.25, septumMm: 0.2, slowBelow: 0.1 };

describe("what is drawn is what is computed", () => {
  for (const [ratio, offset] of [
    [0.2, 0],
    [0.33, 0.5],
    [0.45, 0],
    [0.45, 0.9],
    [0.45, 1],
    [0.6, 1],
    [0.33, 1],
  ] as const) {
    test(`ratio ${ratio}, offset ${offset}: the areas between the lines add up to the printed flow`, () => {
      const { svg } = flowSection({
        id: "t",
        diameterMm: 4,
        outsideDiameterMm: 4 * ratio,
        lumens: 1,
        offset,
        ...assumed,
      });
      expect(Math.abs(drawnFlow(svg) / residualFlow(ratio, offset) - 1)).toBeLessThan(0.001);
    });
  }

  test("the share of slow blood and the walls follow what is assumed, not a number of the figure's own", () => {
    const at = (more: object) =>
      flowSection({ id: "t", diameterMm: 4, outsideDiameterMm: 1.6, lumens: 2, offset: 0, ...assumed, ...more });
    expect(at({ slowBelow: 0.2 }).table.rows).not.toEqual(at({}).table.rows);
    expect(at({ wallMm: 0.3 }).svg).not.toBe(at({}).svg);
  });
});
