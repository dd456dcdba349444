import { pointIn, type Stretch } from "../../core/arm/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { element, group, polyline, type Point } from "../plate/index.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";
import type { StripFrame } from "./strip-frame.ts";

/** Half of the 95 % interval of a diameter, in standard deviations. */
const Z_95 = 1.96;
/** How far the drawn wall may leave the straight-line reading where two stretches meet, in mm. */
export const LARGEST_ROUNDING_MM = 0.25;

export interface VeinSlice {
  readonly cm: number;
  readonly frontMm: number;
  readonly diameterMm: number;
  readonly doubtMm: number;
}

/** Unbroken runs of the vein: neighbouring stretches that may be read, joined; a lone station is a run of one slice. */
export function runsOf(frame: StripFrame, input: ArmStripInput): readonly (readonly VeinSlice[])[] {
  const stretches = frame.profile?.stretches ?? [];
  const spans = stretches.filter(({ from, to }) => from !== to).sort((a, b) => a.from.atCm - b.from.atCm);
  const runs: Stretch[][] = [];
  for (const span of spans) {
    const last = runs.at(-1)?.at(-1);
    if (last && last.to.atCm === span.from.atCm) runs.at(-1)?.push(span);
    else runs.push([span]);
  }
  const lone = stretches.filter(
    ({ from, to }) => from === to && !spans.some((span) => span.from.atCm <= from.atCm && from.atCm <= span.to.atCm),
  );
  return [...runs.map((run) => slicesOf(run, frame, input)), ...lone.map((one) => slicesOf([one], frame, input))].sort(
    (a, b) => (a[0] as VeinSlice).cm - (b[0] as VeinSlice).cm,
  );
}

function slicesOf(run: readonly Stretch[], frame: StripFrame, { policy }: ArmStripInput): VeinSlice[] {
  const first = run[0] as Stretch;
  const end = (run.at(-1) as Stretch).to.atCm;
  const raw = (cm: number): VeinSlice => {
    const stretch = run.find(({ from, to }) => from.atCm <= cm && cm <= to.atCm) ?? first;
    const point = pointIn(stretch, centimetre(cm), policy);
    return { cm, frontMm: point.depthMm, diameterMm: point.diameterMm, doubtMm: Z_95 * point.sdMm };
  };
  if (first.from === first.to) return [raw(first.from.atCm)];
  const step = Math.max(0.1, 3 / Math.abs(frame.perCm));
  const count = Math.max(2, Math.ceil((end - first.from.atCm) / step));
  const corners = run
    .slice(1)
    .map(({ from }, index) => cornerAt(run[index] as Stretch, run[index + 1] as Stretch, from.atCm));
  return Array.from({ length: count + 1 }, (_, index) => {
    const cm = index === count ? end : first.from.atCm + ((end - first.from.atCm) * index) / count;
    const here = raw(cm);
    const corner = corners.find(({ atCm, reachCm }) => Math.abs(cm - atCm) < reachCm);
    if (!corner) return here;
    const near = (corner.reachCm - Math.abs(cm - corner.atCm)) ** 2 / (4 * corner.reachCm);
    return {
      ...here,
      frontMm: here.frontMm + corner.frontBend * near,
      diameterMm: here.diameterMm + corner.widthBend * near,
    };
  });
}

/**
 * A corner of the straight-line reading, rounded as a parabola over `reach` to each side.
 *   added = bend * (reach - distance)^2 / (4 reach); greatest at the corner: bend * reach / 4
 */
function cornerAt(before: Stretch, after: Stretch, atCm: number) {
  const slope = ({ from, to }: Stretch, read: (end: Stretch["from"]) => number) =>
    (read(to) - read(from)) / (to.atCm - from.atCm);
  const bend = (read: (end: Stretch["from"]) => number) => slope(after, read) - slope(before, read);
  const frontBend = bend(({ depthMm }) => depthMm);
  const widthBend = bend(({ diameterMm }) => diameterMm);
  const sharpest = Math.max(Math.abs(frontBend) + Math.abs(widthBend), 1e-6);
  const room = Math.min(before.to.atCm - before.from.atCm, after.to.atCm - after.from.atCm) / 2;
  return { atCm, frontBend, widthBend, reachCm: Math.min(room, (4 * LARGEST_ROUNDING_MM) / sharpest) };
}

/** The vein with its doubt behind it; both ends of a run are cut as a tube, because nothing is known beyond them. */
export function veinBand(frame: StripFrame, runs: readonly (readonly VeinSlice[])[]): string {
  return group(
    { "data-part": "vein" },
    ...runs.map((run) => (run.length === 1 ? loneSlice(frame, run) : tube(frame, run))),
  );
}

function tube(frame: StripFrame, run: readonly VeinSlice[]): string {
  const { ink, x, y } = frame;
  const wall = (mm: (slice: VeinSlice) => number): Point[] => run.map((slice) => ({ x: x(slice.cm), y: y(mm(slice)) }));
  const front = wall(({ frontMm }) => frontMm);
  const back = wall(({ frontMm, diameterMm }) => frontMm + diameterMm);
  const area = (top: readonly Point[], bottom: readonly Point[]) =>
    `${polyline(top)}${polyline(bottom.toReversed(), "L")}Z`;
  const inside = (share: number) => polyline(wall(({ frontMm, diameterMm }) => frontMm + diameterMm * share));
  const first = run[0] as VeinSlice;
  const last = run.at(-1) as VeinSlice;
  return group(
    {},
    element("path", {
      "data-part": "doubt",
      d: area(
        wall(({ frontMm, doubtMm }) => Math.max(0, frontMm - doubtMm / 2)),
        wall(({ frontMm, diameterMm, doubtMm }) => frontMm + diameterMm + doubtMm / 2),
      ),
      fill: ink.vein,
      opacity: 0.26,
    }),
    element("path", {
      "data-part": "vein-run",
      "data-from-cm": first.cm,
      "data-to-cm": last.cm,
      d: area(front, back),
      fill: ink.vein,
      "fill-opacity": 0.36,
    }),
    ...[0.7, 0.8, 0.87, 0.93].map((share) =>
      element("path", { d: inside(share), fill: "none", stroke: ink.vein, "stroke-width": 0.6, opacity: 0.85 }),
    ),
    element("path", {
      "data-part": "front-wall",
      d: polyline(front),
      fill: "none",
      stroke: ink.ink,
      "stroke-width": 1.1,
    }),
    element("path", {
      "data-part": "back-wall",
      d: polyline(back),
      fill: "none",
      stroke: ink.ink,
      "stroke-width": 1.4,
    }),
    cut(frame, first),
    cut(frame, last),
  );
}

/** A cut end, seen a little from the side. */
function cut({ ink, x, y, perMm }: StripFrame, { cm, frontMm, diameterMm }: VeinSlice): string {
  const radius = (diameterMm * perMm) / 2;
  return element("ellipse", {
    "data-part": "cut",
    cx: x(cm),
    cy: y(frontMm + diameterMm / 2),
    rx: Math.min(radius * 0.34, 6),
    ry: radius,
    fill: ink.paper,
    stroke: ink.ink,
    "stroke-width": 1.1,
  });
}

function loneSlice(frame: StripFrame, run: readonly VeinSlice[]): string {
  const slice = run[0] as VeinSlice;
  const { ink, x, y, perMm } = frame;
  return group(
    {},
    element("ellipse", {
      "data-part": "doubt",
      cx: x(slice.cm),
      cy: y(slice.frontMm + slice.diameterMm / 2),
      rx: Math.min(slice.diameterMm * perMm * 0.17, 6) + 3,
      ry: ((slice.diameterMm + slice.doubtMm) * perMm) / 2,
      fill: ink.vein,
      opacity: 0.26,
    }),
    cut(frame, slice),
  );
}
