import type { Side } from "../../core/arm/index.ts";
import { curve, element, group, type Point } from "../plate/index.ts";
import { armVein, azygos, neckVein } from "./chest-drawing.ts";
import { CAVA_X, HEART_CM, PER_CM, VENOUS_ANGLE, type ChestFrame } from "./chest-frame.ts";
import type { TipPlace } from "../../core/tip/index.ts";

const other = (side: Side): Side => (side === "right" ? "left" : "right");

/** From the arm to the angle of its side. */
const fromArm = (frame: ChestFrame, side: Side): Point[] => armVein(side, frame).toReversed();

/** On from the angle to the top of the cava. */
const toCava = ({ topY }: ChestFrame, side: Side): Point[] =>
  side === "right"
    ? [
        { x: 453, y: 111 },
        { x: 426, y: topY - 4 },
        { x: CAVA_X + 2, y: topY + 34 },
      ]
    : [
        { x: 268, y: 104 },
        { x: 346, y: 124 },
        { x: 394, y: topY + 8 },
        { x: CAVA_X - 2, y: topY + 44 },
      ];

/** Down the middle to a height. */
function down(frame: ChestFrame, toY: number): Point[] {
  const from = frame.topY + 60;
  const steps = Math.max(1, Math.round((toY - from) / 46));
  return toY <= from
    ? [{ x: frame.middleX(toY), y: toY }]
    : Array.from({ length: steps }, (_, index) => {
        const y = from + ((toY - from) * (index + 1)) / steps;
        return { x: frame.middleX(y), y };
      });
}

/** The catheter from its arm to a depth on the way; a tip above the cava ends where the veins meet. */
export const courseToDepth = (frame: ChestFrame, side: Side, y: number): Point[] => {
  const way = toCava(frame, side).filter((point) => point.y < y - 12);
  return [...fromArm(frame, side), ...way, ...down(frame, y)];
};

/** The catheter from its arm to a place that was read; a place on the way ends in the middle of its region. */
export function courseToPlace(frame: ChestFrame, side: Side, place: TipPlace): Point[] {
  const { topY, junctionY } = frame;
  const arm = fromArm(frame, side);
  const cava = [...arm, ...toCava(frame, side)];
  const angle = VENOUS_ANGLE[side];
  const outward = side === "right" ? 1 : -1;
  switch (place) {
    case "neck vein":
      return [
        ...arm.slice(0, -1),
        { x: angle.x + 8 * outward, y: angle.y - 8 },
        ...neckVein(side).slice(1, 2),
        { x: angle.x - 3 * outward, y: 26 },
      ];
    case "subclavian or axillary vein":
      return arm.slice(0, 2);
    case "other side": {
      const far = VENOUS_ANGLE[other(side)];
      const across: Point[] = toCava(frame, other(side)).slice(0, -1).toReversed();
      const near = toCava(frame, side).slice(0, -1);
      return [...arm, ...near, ...across, far, ...armVein(other(side), frame).slice(1, 2)];
    }
    case "azygos vein":
      return [...cava, ...azygos().slice(0, 3), { x: CAVA_X - 58, y: junctionY - 84 }];
    case "loop":
      return [
        ...cava,
        { x: CAVA_X + 10, y: topY + 120 },
        { x: CAVA_X - 2, y: topY + 158 },
        { x: CAVA_X - 14, y: topY + 122 },
        { x: CAVA_X - 4, y: topY + 76 },
        { x: CAVA_X + 12, y: topY + 58 },
      ];
    case "innominate vein":
      return [...arm, ...toCava(frame, side).slice(0, side === "right" ? 1 : 2)];
    case "upper or middle cava":
      return courseToDepth(frame, side, topY + (junctionY - topY) / 3);
    case "lower third of the cava":
      return courseToDepth(frame, side, topY + ((junctionY - topY) * 5) / 6);
    case "cavo-atrial junction":
      return courseToDepth(frame, side, junctionY);
    case "right atrium":
      break;
  }
  return courseToDepth(frame, side, junctionY + (HEART_CM * PER_CM) / 3);
}

/** A thick line with a bright middle, as a tube, and an open ring at its tip. */
export function catheter({ ink }: ChestFrame, points: readonly Point[]): string {
  const d = curve(points);
  const tip = points.at(-1) as Point;
  const line = (stroke: string, width: number) =>
    element("path", { d, fill: "none", stroke, "stroke-width": width, "stroke-linecap": "round" });
  return group(
    { "data-part": "catheter" },
    line(ink.paper, 10),
    line(ink.ink, 6),
    line(ink.paper, 1.3),
    element("circle", {
      cx: tip.x,
      cy: tip.y,
      r: 7,
      fill: ink.paper,
      stroke: ink.ink,
      "stroke-width": 3,
      "data-part": "tip",
    }),
  );
}
