import type { Station } from "../../core/arm/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { element, group, px } from "../plate/index.ts";
import type { StripFrame } from "./strip-frame.ts";

/** Why nothing is read across a station, as a code that language turns into words; undefined where it may be read. */
export type GapReason = "no vein" | "clot" | "artery in front" | "does not compress" | "not measured";

export function gapReason(station: Station): GapReason | undefined {
  if (!station.veinPresent) return "no vein";
  if (station.thrombus === true) return "clot";
  if (station.artery === "in front") return "artery in front";
  if (station.compressible === false) return "does not compress";
  if (isMissing(station.depthMm) || isMissing(station.diameterMm)) return "not measured";
  return undefined;
}

/** Front wall and back wall of a station in px, where both were measured. */
export function wallsOf(frame: StripFrame, { depthMm, diameterMm }: Station) {
  if (isMissing(depthMm) || isMissing(diameterMm)) return undefined;
  return { front: frame.y(depthMm), back: frame.y(depthMm + diameterMm) };
}

/** Where a neighbour's mark stands under the vein; the nerve goes beside the artery, not on it. */
export const besideY = (frame: StripFrame, station: Station) =>
  (wallsOf(frame, station)?.back ?? frame.skinY + 40) + 11;

/** Each look with the probe: a dot and a thin caliper; neighbours by shape; a place that may not be read by a cross. */
export function stationMarks(frame: StripFrame): string {
  return group({ "data-part": "stations" }, ...(frame.profile?.ordered ?? []).map((station) => mark(frame, station)));
}

function mark(frame: StripFrame, station: Station): string {
  const { ink } = frame;
  const at = frame.x(station.atCm);
  const walls = wallsOf(frame, station);
  const refused = gapReason(station);
  const parts: string[] = [];
  if (walls) {
    parts.push(
      element("line", { x1: at, x2: at, y1: walls.front, y2: walls.back, stroke: ink.ink, "stroke-width": 0.9 }),
      element("circle", {
        "data-part": "station",
        "data-at-cm": station.atCm,
        "data-depth-mm": isMissing(station.depthMm) ? undefined : station.depthMm,
        "data-diameter-mm": isMissing(station.diameterMm) ? undefined : station.diameterMm,
        cx: at,
        cy: walls.front,
        r: 2.4,
        fill: ink.ink,
      }),
      element("circle", { cx: at, cy: walls.back, r: 1.7, fill: ink.ink }),
    );
  }
  if (refused) {
    const y = walls ? (walls.front + walls.back) / 2 : refusedY(frame);
    parts.push(
      element("path", {
        "data-part": "refused",
        "data-at-cm": station.atCm,
        d: `M${px(at - 5)} ${px(y - 5)}l10 10m0 -10l-10 10`,
        stroke: ink.ink,
        "stroke-width": 1.8,
        fill: "none",
      }),
      element("line", {
        x1: at,
        x2: at,
        y1: frame.skinY + 3,
        y2: y - 9,
        stroke: ink.soft,
        "stroke-width": 0.8,
        "stroke-dasharray": "1.5 3.5",
      }),
    );
  }
  const beside = besideY(frame, station);
  if (station.artery === "beside" || station.artery === "in front")
    parts.push(
      element("path", {
        "data-part": "artery",
        "data-at-cm": station.atCm,
        d: `M${px(at)} ${px(beside - 6)}l6 6l-6 6l-6 -6z`,
        fill: ink.paper,
        stroke: ink.ink,
        "stroke-width": 1.3,
      }),
    );
  if (station.nerveBeside === true) {
    const aside = station.artery === "beside" || station.artery === "in front" ? 14 : 0;
    parts.push(
      element("path", {
        "data-part": "nerve",
        "data-at-cm": station.atCm,
        d: `M${px(at + aside)} ${px(beside - 6)}l6 11h-12z`,
        fill: ink.paper,
        stroke: ink.ink,
        "stroke-width": 1.3,
      }),
    );
  }
  return group({}, ...parts);
}

/** A vein that is not there has no depth; its cross stands at a middling place under the skin. */
export const refusedY = (frame: StripFrame) => frame.skinY + Math.max(34, (frame.deepY - frame.skinY) * 0.45);
