import { curve, element, group, px, type Point } from "../plate/index.ts";
import {
  CARINA_Y,
  CAVA_HALF,
  CAVA_X,
  HEART_CM,
  PER_CM,
  TRACHEA_X,
  VENOUS_ANGLE,
  type ChestFrame,
} from "./chest-frame.ts";

interface Tube {
  readonly path: string;
  readonly width: number;
}

/** Great veins as tubes along their middle lines: neck, arm and crossing veins of both sides, cava above and below. */
export function veins(frame: ChestFrame): readonly Tube[] {
  const { topY, junctionY } = frame;
  const { right, left } = VENOUS_ANGLE;
  const low = junctionY + HEART_CM * PER_CM;
  return [
    { path: curve(neckVein("right")), width: 26 },
    { path: curve(neckVein("left")), width: 26 },
    { path: curve(armVein("right", frame)), width: 24 },
    { path: curve(armVein("left", frame)), width: 24 },
    { path: curve([right, { x: 452, y: 112 }, { x: 424, y: topY - 14 }, { x: CAVA_X, y: topY + 26 }]), width: 40 },
    {
      path: curve([left, { x: 268, y: 104 }, { x: 348, y: 124 }, { x: 398, y: topY + 4 }, { x: CAVA_X, y: topY + 40 }]),
      width: 36,
    },
    { path: `M${CAVA_X} ${px(topY + 10)}L${CAVA_X} ${px(junctionY + 34)}`, width: 2 * CAVA_HALF },
    {
      path: curve([
        { x: 428, y: low - 40 },
        { x: 424, y: low + 8 },
        { x: 416, y: frame.height + 8 },
      ]),
      width: 58,
    },
  ];
}

/** From the angle up the neck. */
export const neckVein = (side: "right" | "left"): Point[] => {
  const { x, y } = VENOUS_ANGLE[side];
  const out = side === "right" ? 1 : -1;
  return [
    { x, y },
    { x: x + 2 * out, y: y - 40 },
    { x: x - 6 * out, y: -12 },
  ];
};

/** From the angle under the collarbone out to the arm. */
export const armVein = (side: "right" | "left", { width }: ChestFrame): Point[] => {
  const { x, y } = VENOUS_ANGLE[side];
  const edge = side === "right" ? width + 10 : -10;
  const at = (share: number) => x + (edge - x) * share;
  return [
    { x, y },
    { x: at(0.3), y: y - 22 },
    { x: at(0.62), y: y - 8 },
    { x: edge, y: y + 46 },
  ];
};

/** The arch that comes from behind into the cava just above the carina, and runs down along the spine. */
export const azygos = (): Point[] => [
  { x: CAVA_X - 12, y: CARINA_Y - 30 },
  { x: CAVA_X - 40, y: CARINA_Y - 38 },
  { x: CAVA_X - 56, y: CARINA_Y - 6 },
  { x: CAVA_X - 58, y: CARINA_Y + 130 },
];

/** Windpipe and its parting, veins, atrium and the outline of the heart, engraved: no area is told by colour. */
export function chestDrawing(frame: ChestFrame): string {
  return group({ "data-part": "chest" }, heart(frame), windpipe(frame), behind(frame), veinTree(frame), atrium(frame));
}

function windpipe({ ink }: ChestFrame): string {
  const [x, y] = [TRACHEA_X, CARINA_Y];
  const half = 17;
  const outer = [
    `M${x - half} -8L${x - half} ${y - 44}C${x - half - 2} ${y - 20} ${x - 62} ${y + 22} ${x - 128} ${y + 58}`,
    `M${x + half} -8L${x + half} ${y - 40}C${x + half + 4} ${y - 18} ${x + 52} ${y + 30} ${x + 104} ${y + 88}`,
    `M${x - 112} ${y + 84}C${x - 64} ${y + 54} ${x - 12} ${y + 26} ${x} ${y}C${x + 12} ${y + 30} ${x + 46} ${y + 66} ${x + 74} ${y + 108}`,
  ];
  // a ring is closed in front only: the short curves an engraver sets, closing up toward the shaded side
  const rings = Array.from({ length: Math.floor((y - 50) / 15) }, (_, index) => {
    const at = 6 + index * 15;
    return `M${x - half + 2} ${at}q${half - 2} 7 ${2 * half - 4} 0`;
  });
  const shade = [4, 7.5, 10].map((inset) => `M${x + half - inset} -8L${x + half - inset} ${y - 46}`);
  return group(
    { "data-part": "windpipe", fill: "none", stroke: ink.soft, "stroke-linecap": "round" },
    ...rings.map((d) => element("path", { d, "stroke-width": 0.9 })),
    ...shade.map((d) => element("path", { d, "stroke-width": 0.5, opacity: 0.8 })),
    ...outer.map((d) => element("path", { d, "stroke-width": 1.5 })),
  );
}

function behind({ ink }: ChestFrame): string {
  return element("path", {
    "data-part": "azygos",
    d: curve(azygos()),
    fill: "none",
    stroke: ink.soft,
    "stroke-width": 1,
    "stroke-dasharray": "3 3",
  });
}

/** How far inside the wall an engraver's line runs, and how strong it is. */
const LINES = [
  { inset: 0, weight: 1.7, opacity: 1 },
  { inset: 2.6, weight: 0.55, opacity: 0.75 },
  { inset: 5.4, weight: 0.5, opacity: 0.5 },
  { inset: 8.8, weight: 0.45, opacity: 0.3 },
];

/** Tubes that open into one another: each line runs along all of them before the next, so that no wall crosses a mouth. */
function veinTree(frame: ChestFrame): string {
  const { ink } = frame;
  const tubes = veins(frame);
  const stroked = (colour: string, less: number, opacity: number) =>
    group(
      { stroke: colour, fill: "none", opacity: opacity === 1 ? undefined : opacity },
      ...tubes
        .filter(({ width }) => width > less + 1)
        .map(({ path, width }) => element("path", { d: path, "stroke-width": width - less })),
    );
  const rings = LINES.flatMap(({ inset, weight, opacity }) => {
    const outer = 2 * inset;
    // a pale line is drawn by laying the paper over a darker one
    const line = stroked(opacity === 1 ? ink.ink : ink.soft, outer, 1);
    return [line, stroked(ink.paper, outer + 2 * weight * (opacity === 1 ? 1 : opacity), 1)];
  });
  return group({ "data-part": "veins", "stroke-linecap": "round", "stroke-linejoin": "round" }, ...rings);
}

function atrium(frame: ChestFrame): string {
  const { ink, junctionY: top } = frame;
  const low = top + HEART_CM * PER_CM;
  const left = CAVA_X - CAVA_HALF;
  const right = CAVA_X + CAVA_HALF;
  const wall = (inset: number) =>
    curve([
      { x: right, y: top + inset * 0.6 },
      { x: right + 44 - inset, y: top + 46 },
      { x: right + 64 - inset, y: top + 116 },
      { x: right + 42 - inset, y: low - 26 },
      { x: 428 + 29 - inset * 0.4, y: low + 6 },
    ]);
  const inner = curve([
    { x: left, y: top },
    { x: left - 26, y: top + 52 },
    { x: left - 30, y: top + 116 },
    { x: left - 10, y: low - 30 },
    { x: 428 - 29, y: low + 6 },
  ]);
  const closed = `${wall(0)}L${428 - 29} ${px(low + 6)}${curve(
    [
      { x: 428 - 29, y: low + 6 },
      { x: left - 10, y: low - 30 },
      { x: left - 30, y: top + 116 },
      { x: left - 26, y: top + 52 },
      { x: left, y: top },
    ],
    "L",
  )}Z`;
  return group(
    { "data-part": "atrium" },
    element("path", { d: closed, fill: ink.paper }),
    element("path", { d: closed, fill: `url(#${frame.id}-stipple)`, opacity: 0.34 }),
    ...[5, 10, 16, 23, 31].map((inset, index) =>
      element("path", {
        d: wall(inset),
        fill: "none",
        stroke: ink.ink,
        "stroke-width": 0.55,
        opacity: px(0.75 - index * 0.13),
      }),
    ),
    element("path", { d: wall(0), fill: "none", stroke: ink.ink, "stroke-width": 1.7 }),
    element("path", { d: inner, fill: "none", stroke: ink.ink, "stroke-width": 1.1, "stroke-dasharray": "7 3" }),
  );
}

/** The rest of the heart gives the atrium a body; it is not measured. */
function heart({ ink, junctionY: top }: ChestFrame): string {
  const low = top + HEART_CM * PER_CM;
  const edge = (in_: number) =>
    curve([
      { x: 300 + in_ * 0.2, y: top - 64 + in_ * 0.7 },
      { x: 216 + in_, y: top - 8 + in_ * 0.5 },
      { x: 138 + in_, y: top + 92 },
      { x: 96 + in_ * 1.2, y: top + 176 },
      { x: 128 + in_, y: low + 22 - in_ * 0.5 },
      { x: 250, y: low + 30 - in_ },
      { x: 402, y: low + 14 - in_ * 0.5 },
    ]);
  const lines = [0, 5, 11, 18, 26, 35, 46];
  return group(
    { "data-part": "heart", fill: "none", stroke: ink.soft },
    ...lines.map((inset, index) =>
      element("path", {
        d: edge(inset),
        "stroke-width": index === 0 ? 1.4 : 0.55,
        opacity: px(index === 0 ? 1 : 0.7 - index * 0.08),
      }),
    ),
    element("path", {
      d: curve([
        { x: 362, y: top + 60 },
        { x: 300, y: top + 110 },
        { x: 222, y: top + 158 },
        { x: 150, y: low + 4 },
      ]),
      "stroke-width": 0.8,
      "stroke-dasharray": "2 4",
    }),
  );
}
