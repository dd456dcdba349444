import { openVeinSlowShare, residualFlow, slowShare, velocityAt, veinField } from "../../core/flow/index.ts";
import { flowWords } from "../../language/index.ts";
import { escaped, type Figure } from "../plate/index.ts";
import { isolines } from "./isoline.ts";
import { lumenPaths } from "./lumen-drawing.ts";
import { gridPoint, wallGrid, type Point, type WallGrid } from "./wall-grid.ts";

export interface FlowSectionInput {
  readonly id: string;
  readonly diameterMm: number;
  readonly outsideDiameterMm: number;
  readonly lumens: number;
  /** 0 in the middle of the vein, 1 leaning on its wall. */
  readonly offset: number;
  /** Assumed walls, for the drawing of the lumens. */
  readonly wallMm: number;
  readonly septumMm: number;
  /** Below this share of the open vein's mean velocity blood counts as slow. */
  readonly slowBelow: number;
}

/** Steps of the shading, in the open vein's mean velocity; a line with its number stands at every fifth. */
const STEP = 0.1;
const LINE_EVERY = 5;
const LINES = [0.5, 1, 1.5];
/** Tone of one step; twenty of them must still leave a number readable on top. */
const LAYER = 0.045;
const SLOW_FIELD = 1.2;
const RINGS = 25;
const SPOKES = 128;
const RADIUS = 200;
const CENTRE = { x: 220, y: 230 };
const OPEN = { x: 680, y: 230 };

/**
 * The vein cut across with the computed velocity of the blood in it, the catheter where it was put, and the open vein
 * beside it at the same scale and with the same shading. What is drawn is the field: the areas between its lines add up
 * to the printed flow.
 */
export function flowSection(input: FlowSectionInput): Figure {
  const ratio = input.outsideDiameterMm / input.diameterMm;
  const field = veinField(ratio, input.offset);
  const grid = wallGrid(field, RINGS, SPOKES);
  const flow = residualFlow(ratio, input.offset);
  const slow = slowShare(field, input.slowBelow).ofBlood;
  const exact = ({ x, y }: Point) => velocityAt(field, x, y);
  const fastest = peak(grid.velocity, RINGS, SPOKES);
  const shades = levels(fastest.value).map((level) => shade(isolines(grid, level, exact), level));
  // a slow field has few steps of shade: between them it gets hairlines
  const hairs =
    fastest.value < SLOW_FIELD
      ? levels(fastest.value + STEP / 2).map((level) => hair(isolines(grid, level - STEP / 2, exact), level - STEP / 2))
      : [];
  const catheter = at(CENTRE, { x: field.annulus.apart, y: 0 });
  const radius = ratio * RADIUS;
  const perMm = (2 * RADIUS) / input.diameterMm;
  const lumens = lumenPaths(input.lumens, radius, input.wallMm * perMm, input.septumMm * perMm);
  const peakAt = at(CENTRE, gridPoint(grid, fastest.ring, fastest.spoke));
  const words = flowWords.section({ ratio, offset: input.offset, flow, slow, diameterMm: input.diameterMm });
  const label = (where: Point, text: string) =>
    `<text class="velocity" x="${n(where.x)}" y="${n(where.y + 5)}">${escaped(text)}</text>`;
  const svg = `<svg class="plate flow-section" viewBox="0 0 900 490" role="img" aria-labelledby="${input.id}-t" data-ratio="${ratio}" data-offset="${input.offset}" data-radius="${RADIUS}" data-flow="${flow}" data-fastest="${fastest.value}"><title id="${input.id}-t">${escaped(words.sentence)}</title><g class="with">${disc(CENTRE, RADIUS, "vein-bed")}${shades.join("")}${hairs.join("")}${lines(grid, exact)}${disc(catheter, radius, "catheter-body")}<g transform="translate(${n(catheter.x)} ${n(catheter.y)})">${lumens.map((d) => `<path class="lumen" d="${d}"/>`).join("")}</g>${disc(CENTRE, RADIUS, "vein-wall")}${label(peakAt, fastest.value.toFixed(2))}</g><g class="open">${disc(OPEN, RADIUS, "vein-bed")}${openShades()}${disc(OPEN, RADIUS, "vein-wall")}${label(OPEN, "2.00")}</g><text class="under" x="${CENTRE.x}" y="468">${escaped(words.withCatheter)}</text><text class="under" x="${OPEN.x}" y="468">${escaped(words.open)}</text></svg>`;
  return {
    svg,
    sentence: words.sentence,
    table: {
      columns: words.columns,
      rows: flowWords.rows({
        ratio,
        slow,
        openSlow: openVeinSlowShare(input.slowBelow),
        slowBelow: input.slowBelow,
        flow,
        fastest: fastest.value,
      }),
    },
  };
}

const levels = (below: number): readonly number[] =>
  Array.from({ length: Math.ceil(below / STEP) - 1 }, (_, index) => (index + 1) * STEP);

const at = (centre: Point, { x, y }: Point): Point => ({ x: centre.x + RADIUS * x, y: centre.y - RADIUS * y });

const n = (value: number): string => String(Math.round(value * 100) / 100);

const disc = (centre: Point, radius: number, name: string) =>
  `<circle class="${name}" cx="${n(centre.x)}" cy="${n(centre.y)}" r="${n(radius)}"/>`;

function path(loops: readonly (readonly Point[])[]): string {
  let d = "";
  for (const loop of loops) {
    for (const [index, point] of loop.entries()) {
      const { x, y } = at(CENTRE, point);
      d += `${index === 0 ? "M" : "L"}${n(x)} ${n(y)}`;
    }
    d += "Z";
  }
  return d;
}

/** All blood faster than one level; the shades lie over one another, so that each step is a little deeper. */
const shade = (loops: readonly (readonly Point[])[], level: number): string =>
  loops.length === 0
    ? ""
    : `<path class="shade" data-level="${level.toFixed(2)}" fill-opacity="${LAYER}" d="${path(loops)}"/>`;

const hair = (loops: readonly (readonly Point[])[], level: number): string =>
  loops.length === 0 ? "" : `<path class="hairline" data-level="${level.toFixed(2)}" d="${path(loops)}"/>`;

function lines(grid: WallGrid, exact: (point: Point) => number): string {
  return LINES.map((level) => {
    const loops = isolines(grid, level, exact);
    // the number stands where the line is farthest from the catheter, in the open part of the vein
    const left = loops.flat().reduce<Point | undefined>((far, one) => (!far || one.x < far.x ? one : far), undefined);
    if (!left) return "";
    const where = at(CENTRE, left);
    return `<path class="isoline" d="${path(loops)}"/><text class="level" x="${n(where.x + 4)}" y="${n(where.y - 10)}">${level.toFixed(1)}</text>`;
  }).join("");
}

/** u = 2 (1 - r^2) in the open vein: every line is a circle. */
function openShades(): string {
  return levels(2)
    .map((level, index) => {
      const r = RADIUS * Math.sqrt(1 - level / 2);
      const line =
        (index + 1) % LINE_EVERY === 0
          ? `<circle class="isoline" cx="${OPEN.x}" cy="${OPEN.y}" r="${n(r)}"/><text class="level" x="${n(OPEN.x - r + 4)}" y="${OPEN.y - 10}">${level.toFixed(1)}</text>`
          : "";
      return `<circle class="shade" fill-opacity="${LAYER}" cx="${OPEN.x}" cy="${OPEN.y}" r="${n(r)}"/>${line}`;
    })
    .join("");
}

function peak(velocity: Float64Array, rings: number, spokes: number): { ring: number; spoke: number; value: number } {
  let best = { ring: 0, spoke: 0, value: 0 };
  for (let ring = 0; ring < rings; ring += 1)
    for (let spoke = 0; spoke < spokes; spoke += 1) {
      const value = velocity[ring * spokes + spoke] as number;
      if (value > best.value) best = { ring, spoke, value };
    }
  return best;
}
