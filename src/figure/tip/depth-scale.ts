import { element, group, lettered, px } from "../plate/index.ts";
import { CARINA_Y, CAVA_HALF, CAVA_X, type ChestFrame } from "./chest-frame.ts";
import type { PlateTarget, TipOnTheWay } from "./tip-plate-input.ts";
import { tipPlateWords } from "../../language/index.ts";

/** Right of the chest: the ruler from the carina, the bracket of the targets, and their names. */
const RULER_X = 716;
const NARROW_RULER_X = 664;
const NAMES_X = 742;
const ARROW_X = 566;
const NARROW_ARROW_X = 486;
const LINE = 19;

export function depthScale(frame: ChestFrame, input: TipOnTheWay): string {
  return group(
    { "data-part": "scale" },
    ruler(frame),
    bracket(frame, input),
    frame.narrow ? "" : names(frame, input.targets),
  );
}

/** Where the scale stands. */
const rulerX = (narrow: boolean): number => (narrow ? NARROW_RULER_X : RULER_X);

function ruler({ ink, y, narrow, letter }: ChestFrame): string {
  const at = rulerX(narrow);
  const marks = Array.from({ length: 15 }, (_, index) => index - 3).map((cm) =>
    group(
      {},
      element("line", {
        "data-cm": cm,
        x1: at,
        x2: at + (cm % 2 === 0 ? 9 : 5),
        y1: y(cm),
        y2: y(cm),
        stroke: ink.soft,
        "stroke-width": 1,
      }),
    ),
  );
  return group(
    { "data-part": "ruler" },
    element("line", { x1: at, x2: at, y1: y(-3), y2: y(11), stroke: ink.soft, "stroke-width": 1 }),
    ...marks,
    ...[-2, 2, 6, 10].map((cm) =>
      lettered(ink, at - 6, y(cm) + 5, String(cm), { size: 13 * letter, anchor: "end", colour: ink.soft }),
    ),
    element("line", {
      x1: 344,
      x2: at,
      y1: CARINA_Y,
      y2: CARINA_Y,
      stroke: ink.soft,
      "stroke-width": 0.8,
      "stroke-dasharray": "1 4",
    }),
  );
}

/** The targets that count, bracketed; hatched as far as their printed spread goes. */
function bracket({ ink, y, id, narrow, letter }: ChestFrame, { targets }: TipOnTheWay): string {
  const counted = targets.filter((one) => one.counted);
  if (counted.length === 0) return "";
  const from = Math.min(...counted.map(({ cm, lowCm }) => lowCm ?? cm));
  const to = Math.max(...counted.map(({ cm, highCm }) => highCm ?? cm));
  const x = rulerX(narrow) - 46;
  return group(
    { "data-part": "targets", "data-from-cm": from, "data-to-cm": to },
    element("rect", {
      x: x + 2,
      y: y(from),
      width: 12,
      height: y(to) - y(from),
      fill: `url(#${id}-hatch)`,
      opacity: 0.6,
    }),
    element("path", {
      d: `M${x + 16} ${px(y(from))}H${x}V${px(y(to))}H${x + 16}`,
      fill: "none",
      stroke: ink.ink,
      "stroke-width": 1.6,
    }),
    ...counted.map(({ cm }) =>
      element("line", { x1: x - 7, x2: x + 18, y1: y(cm), y2: y(cm), stroke: ink.ink, "stroke-width": 2.6 }),
    ),
    lettered(ink, narrow ? x - 14 : x + 8, y(from) - 8, tipPlateWords.targets, {
      size: 14 * letter,
      face: "serif",
      italic: true,
      anchor: "middle",
      rim: 4,
    }),
  );
}

/** Names at line ends, moved apart so that none lies on another; what does not count is set lighter, with an open mark. */
function names({ ink, y }: ChestFrame, targets: readonly PlateTarget[]): string {
  let before = -Infinity;
  const placed = [...targets]
    .sort((a, b) => a.cm - b.cm)
    .map((one) => {
      before = Math.max(y(one.cm), before + LINE);
      return { ...one, at: before };
    });
  // pushed down only, the last would leave its mark: the whole run moves up by half of what it was pushed
  const pushed = Math.max(0, ...placed.map(({ at, cm }) => at - y(cm))) / 2;
  return group(
    { "data-part": "names" },
    ...placed.map(({ name, cm, counted, sets, at }) => {
      const label = at - pushed;
      const colour = counted ? ink.ink : ink.soft;
      return group(
        { "data-target-cm": cm },
        element("path", {
          d: `M${RULER_X + 10} ${px(y(cm))}L${NAMES_X - 8} ${px(label)}H${NAMES_X - 3}`,
          fill: "none",
          stroke: colour,
          "stroke-width": counted ? 1.2 : 0.7,
        }),
        element("circle", {
          cx: RULER_X,
          cy: y(cm),
          r: counted ? 4 : 3.2,
          fill: counted ? ink.ink : ink.paper,
          stroke: colour,
          "stroke-width": 1.1,
        }),
        lettered(ink, NAMES_X, label + 5, `${cm.toFixed(1)}  ${name}`, {
          size: 14,
          colour,
          ...(sets ? { weight: 700 as const } : {}),
        }),
      );
    }),
  );
}

/** From the tip up to the target that sets it: the one thing to act on, with the number the hands need. */
export function withdrawalArrow(frame: ChestFrame, input: TipOnTheWay): string {
  const { withdrawCm, shownCm, depthCm } = input;
  if (withdrawCm === undefined || shownCm === undefined) return "";
  const { ink, y, middleX, narrow, letter } = frame;
  const at = narrow ? NARROW_ARROW_X : ARROW_X;
  const [from, to] = [y(depthCm), y(depthCm - withdrawCm)];
  const guide = (height: number) =>
    element("line", {
      x1: middleX(height) + 14,
      x2: rulerX(narrow),
      y1: height,
      y2: height,
      stroke: ink.act,
      "stroke-width": 0.9,
      "stroke-dasharray": "5 4",
    });
  const head = Math.min(13, (from - to) * 0.6);
  const middle = (from + to) / 2;
  const [words, number] = split(tipPlateWords.withdraw(shownCm));
  return group(
    { "data-part": "withdrawal", "data-cm": withdrawCm },
    guide(from),
    guide(to),
    element("line", { x1: at, x2: at, y1: from, y2: to + head, stroke: ink.act, "stroke-width": 4 }),
    element("path", { d: `M${at} ${px(to)}l${px(head * 0.62)} ${px(head)}h${px(-head * 1.24)}Z`, fill: ink.act }),
    element("circle", {
      cx: middleX(to),
      cy: to,
      r: 7,
      fill: "none",
      stroke: ink.act,
      "stroke-width": 2,
      "stroke-dasharray": "3 2.5",
      "data-part": "after",
    }),
    lettered(ink, at + 12, middle - 12, words, { size: 15 * letter, colour: ink.act, rim: 5 }),
    lettered(ink, at + 12, middle + 18, number, {
      size: 31 * (narrow ? 1.1 : 1),
      weight: 700,
      colour: ink.act,
      rim: 6,
    }),
  );
}

/** "withdraw by 2.5 cm": the number stands by itself, large. */
function split(text: string): readonly [string, string] {
  const at = text.search(/\d/);
  return [text.slice(0, at).trim(), text.slice(at)];
}

/** How far the reading may be off: pale and hatched, across the vein. */
export function tipDoubt({ ink, y, middleX, id, letter }: ChestFrame, { doubtCm, depthCm }: TipOnTheWay): string {
  if (!doubtCm) return "";
  const x = middleX(y(depthCm)) - CAVA_HALF + 4;
  return group(
    { "data-part": "doubt", "data-from-cm": doubtCm.low, "data-to-cm": doubtCm.high },
    element("rect", {
      x,
      y: y(doubtCm.low),
      width: 2 * CAVA_HALF - 8,
      height: y(doubtCm.high) - y(doubtCm.low),
      rx: 8,
      fill: `url(#${id}-hatch)`,
      stroke: ink.soft,
      "stroke-width": 1,
      "stroke-dasharray": "3 3",
      opacity: 0.55,
    }),
    lettered(ink, x + CAVA_HALF - 4, y(doubtCm.high) + 17 * letter, tipPlateWords.doubt, {
      size: 13 * letter,
      face: "serif",
      italic: true,
      anchor: "middle",
      rim: 5,
    }),
  );
}

/** Thirds of the mean cava: three ticks on its wall, so that a reader sees where the tip stands in it. */
export function cavaThirds({ ink, topY, junctionY }: ChestFrame): string {
  const third = (junctionY - topY) / 3;
  return group(
    { "data-part": "thirds", stroke: ink.ink, "stroke-width": 1.3 },
    ...[1, 2, 3].map((count) =>
      element("line", {
        x1: CAVA_X + CAVA_HALF - 3,
        x2: CAVA_X + CAVA_HALF + 9,
        y1: topY + count * third,
        y2: topY + count * third,
      }),
    ),
  );
}
