import { curve, element, group, lettered, px, type Point } from "../plate/index.ts";
import type { StripFrame } from "./strip-frame.ts";

/**
 * The arm round the section: skin above, the far side below, engraved lines that close up where the form turns away.
 * Only the skin line and what lies under it are to scale; the far side gives the arm a body and is not measured.
 */
export function armBody(frame: StripFrame): string {
  const { ink, narrow } = frame;
  const lines = shading(frame).map((points, index) =>
    element("path", {
      d: curve(points),
      fill: "none",
      stroke: ink.ink,
      "stroke-width": 0.55,
      opacity: px(Math.min(0.85, 0.3 + index * (narrow ? 0.085 : 0.07))),
    }),
  );
  return group(
    { "data-part": "arm", "stroke-linecap": "round" },
    ...lines,
    hollow(frame),
    element("path", { d: curve(farSide(frame, 0)), fill: "none", stroke: ink.ink, "stroke-width": 1.5 }),
    element("path", { d: skinLine(frame), fill: "none", stroke: ink.ink, "stroke-width": 1.8 }),
  );
}

/** How far the far side bulges at a share of the arm's length: elbow, belly of the arm, shoulder. */
const bulge = (share: number): number => {
  const knots = [
    [-0.14, 30],
    [-0.05, 17],
    [0.02, 20],
    [0.22, 10],
    [0.5, 0],
    [0.78, 4],
    [1, 9],
    [1.14, 3],
  ] as const;
  const next = knots.findIndex(([at]) => at >= share);
  if (next <= 0) return next === 0 ? knots[0][1] : knots[7][1];
  const [fromAt, from] = knots[next - 1] as readonly [number, number];
  const [toAt, to] = knots[next] as readonly [number, number];
  const eased = (1 - Math.cos((Math.PI * (share - fromAt)) / (toAt - fromAt))) / 2;
  return from + (to - from) * eased;
};

const farY = (frame: StripFrame, u: number) => frame.bottomY - bulge(u / frame.lengthPx);

function farSide(frame: StripFrame, raised: number, from = -frame.stub, to = frame.lengthPx + frame.stub): Point[] {
  const steps = Math.max(4, Math.round((to - from) / 26));
  return Array.from({ length: steps + 1 }, (_, index) => {
    const u = from + ((to - from) * index) / steps;
    return { x: frame.along(u), y: farY(frame, u) - raised };
  });
}

/** Lines along the far side, wide apart inside and close at the edge, each begun and ended a little differently. */
function shading(frame: StripFrame): Point[][] {
  const count = frame.narrow ? 8 : 11;
  const depth = frame.narrow ? 27 : 36;
  const { stub, lengthPx } = frame;
  return Array.from({ length: count }, (_, index) => {
    const raised = depth * (1 - index / count) ** 1.55 + 1.8;
    const inner = 1 - index / count;
    const from = -stub + lengthPx * (0.02 + 0.16 * inner * (0.6 + 0.4 * Math.sin(index * 2.4)));
    const to = lengthPx + stub - lengthPx * (0.015 + 0.15 * inner * (0.6 + 0.4 * Math.cos(index * 1.9)));
    const points = farSide(frame, 0, from, to);
    // the line leaves the edge in the middle of its run and comes back to it at its ends
    return points.map((point, at) => {
      const share = at / (points.length - 1);
      const lift = raised * (0.55 + 0.45 * Math.sin(Math.PI * share));
      return { x: point.x, y: point.y - lift };
    });
  });
}

/** Elbow crease, the straight skin over the measured length, the fold of the armpit and the chest beyond it. */
function skinLine({ along, skinY, stub, lengthPx, narrow }: StripFrame): string {
  const rise = narrow ? 46 : 62;
  const elbow = curve([
    { x: along(-stub), y: skinY + stub * 0.16 },
    { x: along(-stub * 0.55), y: skinY + stub * 0.12 },
    { x: along(-stub * 0.22), y: skinY + stub * 0.03 },
    { x: along(0), y: skinY },
  ]);
  const armpit = curve(
    [
      { x: along(lengthPx), y: skinY },
      { x: along(lengthPx + stub * 0.3), y: skinY + 1.5 },
      { x: along(lengthPx + stub * 0.58), y: skinY - rise * 0.16 },
      { x: along(lengthPx + stub * 0.82), y: skinY - rise * 0.55 },
      { x: along(lengthPx + stub * 0.98), y: skinY - rise },
    ],
    "L",
  );
  return `${elbow}${armpit}`;
}

/** Lines that follow the skin into the hollow of the armpit and the crease of the elbow, and set both back. */
function hollow({ along, skinY, stub, lengthPx, ink, narrow }: StripFrame): string {
  const rise = narrow ? 46 : 62;
  const count = narrow ? 4 : 6;
  const lines = Array.from({ length: count }, (_, index) => {
    const in1 = (narrow ? 2.6 : 3.4) * (index + 1) ** 1.18;
    const share = index / count;
    const end = 0.98 - 0.16 * share;
    const armpit = [
      { x: along(lengthPx + stub * (0.1 + 0.16 * share)), y: skinY + in1 },
      { x: along(lengthPx + stub * 0.4), y: skinY + in1 * 0.95 },
      { x: along(lengthPx + stub * 0.66 + in1 * 0.5), y: skinY - rise * 0.24 + in1 * 0.8 },
      {
        x: along(lengthPx + stub * (0.8 + 0.1 * (1 - share)) + in1 * 0.75),
        y: skinY - rise * (0.86 - 0.42 * share) + in1,
      },
    ].filter(({ x }) => Math.abs(x - along(lengthPx)) < stub * (end + 0.12));
    const elbow =
      index < 3
        ? [
            { x: along(-stub * 0.9), y: skinY + stub * 0.16 + in1 },
            { x: along(-stub * 0.55), y: skinY + stub * 0.12 + in1 },
            { x: along(-stub * (0.24 + 0.08 * index)), y: skinY + stub * 0.04 + in1 * 0.8 },
          ]
        : [];
    return `${curve(armpit)}${curve(elbow)}`;
  });
  return element("path", { d: lines.join(""), fill: "none", stroke: ink.ink, "stroke-width": 0.55, opacity: 0.6 });
}

/** Elbow, armpit, and the arm in words: the words belong to the patient, not to the picture. */
export function placeNames(
  frame: StripFrame,
  words: {
    readonly elbow: string;
    readonly armpit: string;
    readonly arm: string;
    readonly view: string;
  },
): string {
  const { ink, type, width, height, toArmpit, narrow } = frame;
  const y = height - 8;
  const [left, right] = toArmpit === 1 ? [words.elbow, words.armpit] : [words.armpit, words.elbow];
  const place = { size: type.region, face: "serif", italic: true, colour: ink.soft } as const;
  return group(
    { "data-part": "places" },
    lettered(ink, 4, y, left, place),
    lettered(ink, width - 4, y, right, { ...place, anchor: "end" }),
    lettered(ink, width / 2, y, words.arm, {
      size: narrow ? 16 : 17,
      weight: 700,
      spacing: 1.6,
      anchor: "middle",
    }),
    narrow ? "" : lettered(ink, width / 2 + 84, y, words.view, { ...place, size: 14.5 }),
  );
}
