import type { Candidate } from "../../core/line-plan/index.ts";
import { element, group, polyline, px, type Point, type Segment } from "../plate/index.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";
import type { StripFrame } from "./strip-frame.ts";
import type { VeinSlice } from "./vein-band.ts";

/** The needle as drawn: from the hub in the air, through the skin, to the front wall of the vein. */
export interface NeedleLine extends Segment {
  readonly skin: Point;
}

/** How high over the skin the hub stands, in px; the drawing's needle is cut off there, a real one is longer. */
const hubHeight = (frame: StripFrame) => frame.skinY - 36;

export function needleLine(frame: StripFrame, chosen: Candidate): NeedleLine {
  const skin = { x: frame.x(chosen.needleSkinCm), y: frame.skinY };
  const to = { x: frame.x(chosen.veinEntryCm), y: frame.y(chosen.depthMm) };
  const rise = (to.x - skin.x) / Math.max(1, to.y - skin.y);
  // a flat needle would leave the sheet: the hub then stands lower
  const edge = frame.toArmpit === 1 ? skin.x - 12 : frame.width - 12 - skin.x;
  const up = Math.min(hubHeight(frame), Math.abs(rise) > 0.01 ? Math.max(20, edge / Math.abs(rise)) : hubHeight(frame));
  return { from: { x: skin.x - rise * up, y: skin.y - up }, to, skin };
}

/** Needle with the band of an unsteady hand, catheter at its true width, tunnel; filled dot skin, open ring vein. */
export function needleDrawing(
  frame: StripFrame,
  { chosen }: ArmStripInput,
  runs: readonly (readonly VeinSlice[])[],
): string {
  if (!chosen) return "";
  const { ink, x, skinY } = frame;
  const needle = needleLine(frame, chosen);
  const [bandFrom, bandTo] = [x(chosen.skinBand.fromCm), x(chosen.skinBand.toCm)];
  const width = Math.max(2.6, chosen.outsideDiameterMm * frame.perMm);
  const inVein = catheterInVein(frame, chosen, runs);
  return group(
    { "data-part": "needle-and-catheter" },
    element("path", {
      "data-part": "angle-band",
      "data-from-cm": chosen.skinBand.fromCm,
      "data-to-cm": chosen.skinBand.toCm,
      d: `M${px(bandFrom)} ${px(skinY)}L${px(bandTo)} ${px(skinY)}L${px(needle.to.x)} ${px(needle.to.y)}Z`,
      fill: ink.act,
      opacity: 0.16,
    }),
    inVein.length > 1
      ? element("path", {
          "data-part": "catheter",
          "data-od-mm": chosen.outsideDiameterMm,
          d: polyline(inVein),
          fill: "none",
          stroke: ink.act,
          "stroke-width": width,
          "stroke-linejoin": "round",
        })
      : "",
    tunnelDrawing(frame, chosen, width),
    hub(frame, needle),
    element("line", {
      "data-part": "needle",
      x1: needle.from.x,
      y1: needle.from.y,
      x2: needle.to.x,
      y2: needle.to.y,
      stroke: ink.act,
      "stroke-width": 2.1,
    }),
    element("line", {
      x1: bandFrom,
      x2: bandTo,
      y1: skinY,
      y2: skinY,
      stroke: ink.act,
      "stroke-width": 3.4,
      "stroke-linecap": "round",
    }),
    chosen.tunnel
      ? element("circle", {
          "data-part": "needle-skin",
          "data-at-cm": chosen.needleSkinCm,
          cx: needle.skin.x,
          cy: skinY,
          r: 4,
          fill: ink.act,
        })
      : "",
    element("circle", {
      class: "skin-mark",
      "data-at-cm": chosen.skinExitCm,
      cx: x(chosen.skinExitCm),
      cy: skinY,
      r: frame.narrow ? 6.5 : 7.5,
      fill: ink.act,
      stroke: ink.paper,
      "stroke-width": 1.5,
    }),
    element("circle", {
      class: "vein-mark",
      "data-at-cm": chosen.veinEntryCm,
      "data-depth-mm": chosen.depthMm,
      cx: needle.to.x,
      cy: needle.to.y,
      r: frame.narrow ? 5.5 : 6.5,
      fill: ink.paper,
      stroke: ink.act,
      "stroke-width": 2.4,
    }),
  );
}

/** The hub of the needle: a short sleeve, so that the line reads as an instrument and points the way it goes. */
function hub({ ink }: StripFrame, { from, to }: NeedleLine): string {
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  const [ux, uy] = [(to.x - from.x) / long, (to.y - from.y) / long];
  const along = (by: number, out: number) => `${px(from.x + ux * by - uy * out)} ${px(from.y + uy * by + ux * out)}`;
  return element("path", {
    "data-part": "hub",
    d: `M${along(0, 4.6)}L${along(11, 3.4)}L${along(16, 1.2)}L${along(16, -1.2)}L${along(11, -3.4)}L${along(0, -4.6)}Z`,
    fill: ink.paper,
    stroke: ink.act,
    "stroke-width": 1.4,
    "stroke-linejoin": "round",
  });
}

/** The catheter lies on from the entry as far as the vein was seen; beyond that nothing is drawn. */
export function catheterInVein(
  frame: StripFrame,
  chosen: Candidate,
  runs: readonly (readonly VeinSlice[])[],
): readonly Point[] {
  const run = runs.find(
    (slices) => (slices[0]?.cm ?? Infinity) <= chosen.veinEntryCm && chosen.veinEntryCm <= (slices.at(-1)?.cm ?? -1),
  );
  const ahead = (run ?? []).filter(({ cm }) => cm > chosen.veinEntryCm + 0.15);
  const middle = ahead.map(({ cm, frontMm, diameterMm }) => ({
    x: frame.x(cm),
    y: frame.y(frontMm + diameterMm * 0.5),
    share: Math.min(1, (cm - chosen.veinEntryCm) / 1.3),
    front: frame.y(frontMm),
  }));
  // it enters at the front wall and sinks to the middle of the vein over the first millimetres
  const sunk = middle.map(({ x, y, share, front }) => ({
    x,
    y: front + (y - front) * Math.sin((share * Math.PI) / 2),
  }));
  return [{ x: frame.x(chosen.veinEntryCm), y: frame.y(chosen.depthMm) }, ...sunk];
}

/** The tunnel: the catheter under the skin from the needle's entry down to the exit. */
function tunnelDrawing(frame: StripFrame, { tunnel }: Candidate, width: number): string {
  if (!tunnel) return "";
  const { ink, x, skinY } = frame;
  const [exit, needle] = [x(tunnel.exitCm), x(tunnel.needleSkinCm)];
  const dip = 15;
  return element("path", {
    "data-part": "tunnel",
    "data-from-cm": tunnel.exitCm,
    "data-to-cm": tunnel.needleSkinCm,
    d: `M${px(exit)} ${px(skinY)}C${px(exit + (needle - exit) * 0.2)} ${px(skinY + dip)} ${px(exit + (needle - exit) * 0.8)} ${px(skinY + dip)} ${px(needle)} ${px(skinY + 2)}`,
    fill: "none",
    stroke: ink.act,
    "stroke-width": Math.min(width, 6),
    "stroke-linecap": "round",
  });
}

/** Other places on this arm that came next, dashed. */
export function alternativeDrawing(frame: StripFrame, input: ArmStripInput): string {
  return group(
    { "data-part": "alternatives" },
    ...alternativesHere(input).map((one) =>
      group(
        {},
        element("line", {
          "data-part": "alternative",
          "data-at-cm": one.veinEntryCm,
          x1: frame.x(one.needleSkinCm),
          y1: frame.skinY,
          x2: frame.x(one.veinEntryCm),
          y2: frame.y(one.depthMm),
          stroke: frame.ink.soft,
          "stroke-width": 1.2,
          "stroke-dasharray": "4 3.5",
        }),
        element("circle", {
          cx: frame.x(one.veinEntryCm),
          cy: frame.y(one.depthMm),
          r: 3.6,
          fill: frame.ink.paper,
          stroke: frame.ink.soft,
          "stroke-width": 1.2,
          "stroke-dasharray": "2 1.6",
        }),
      ),
    ),
  );
}

/** Next best places of this arm that stand clearly apart from the chosen one; at most two, so that the plate stays calm. */
export const alternativesHere = ({ alternatives = [], chosen, side }: ArmStripInput): readonly Candidate[] => {
  const kept: Candidate[] = [];
  for (const one of alternatives) {
    if (one.side !== (chosen?.side ?? side) || one.vein === chosen?.vein) continue;
    const apart = [...kept, ...(chosen ? [chosen] : [])].every(
      (other) => Math.abs(other.veinEntryCm - one.veinEntryCm) > 0.4 || Math.abs(other.depthMm - one.depthMm) > 3,
    );
    if (apart && kept.length < 2 && !kept.some(({ vein }) => vein === one.vein)) kept.push(one);
  }
  return kept;
};
