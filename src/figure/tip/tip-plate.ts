import { plateDepth, tipPlateWords } from "../../language/index.ts";
import { element, group, lettered, plate, px, textures, type Figure, type Ink, type Point } from "../plate/index.ts";
import { catheter, courseToDepth, courseToPlace } from "./catheter-course.ts";
import { chestDrawing } from "./chest-drawing.ts";
import { CARINA_Y, CAVA_HALF, CAVA_X, chestFrame, PER_CM, TRACHEA_X, type ChestFrame } from "./chest-frame.ts";
import { cavaThirds, depthScale, tipDoubt, withdrawalArrow } from "./depth-scale.ts";
import type { TipPlateInput } from "./tip-plate-input.ts";

/** Beyond these the drawing ends; the table still says the depth. */
const HIGHEST_CM = -5;
const DEEPEST_CM = 9.5;

/**
 * The chest with the tip in it, as the patient sees it: where the tip lies with the doubt of its reading, the targets
 * local policy counts, and the way back as an arrow with its number. A tip off the way gets its place and no number.
 * Scale to read back: y = data-carina-y + cm * data-per-cm.
 */
export function tipPlate(input: TipPlateInput): Figure {
  const frame = chestFrame(input);
  const course = courseOf(frame, input);
  const onTheWay = input.kind === "on the way" ? input : undefined;
  const shown = plate(
    {
      id: input.id,
      kind: "plate tip-plate",
      width: frame.width,
      height: frame.height,
      title: input.armWords,
      description: input.sentence,
      scales: { "data-carina-y": CARINA_Y, "data-per-cm": PER_CM },
    },
    textures(input.id, frame.ink),
    element("rect", { x: 0, y: 0, width: frame.width, height: frame.height, fill: frame.ink.paper }),
    chestDrawing(frame),
    cavaThirds(frame),
    onTheWay ? tipDoubt(frame, onTheWay) : "",
    course.length > 0 ? catheter(frame, course) : "",
    onTheWay ? depthScale(frame, onTheWay) : "",
    onTheWay ? withdrawalArrow(frame, onTheWay) : "",
    onTheWay ? "" : actRing(frame, course),
    tipLabel(frame, input, course),
    labels(frame),
    sides(frame, input.armWords),
  );
  // the drawing is one; a small screen sees its middle
  const box = (from: number, to: number) => `viewBox="${px(from)} 0 ${px(to - from)} ${frame.height}"`;
  const svg = shown.replace(box(0, frame.width), box(frame.fromX, frame.toX));
  return { svg, sentence: input.sentence, table: tableOf(input) };
}

function courseOf(frame: ChestFrame, input: TipPlateInput): readonly Point[] {
  if (input.side === undefined) return [];
  if (input.kind === "elsewhere") return courseToPlace(frame, input.side, input.place);
  return courseToDepth(frame, input.side, frame.y(Math.min(DEEPEST_CM, Math.max(HIGHEST_CM, input.depthCm))));
}

function labels(frame: ChestFrame): string {
  const { ink, junctionY, topY, letter, narrow } = frame;
  const region = (x: number, y: number, text: string, anchor: "start" | "middle" | "end" = "start") =>
    lettered(ink, x, y, text, { size: 16 * letter, face: "serif", italic: true, anchor, colour: ink.soft, rim: 5 });
  const carina = group(
    { "data-part": "carina" },
    element("path", {
      d: `M322 ${CARINA_Y - 2}L${narrow ? 268 : 206} ${CARINA_Y - 34}`,
      fill: "none",
      stroke: ink.soft,
      "stroke-width": 0.9,
    }),
    element("path", { d: `M330 ${CARINA_Y - 5}l5 8h-10Z`, fill: ink.ink }),
    lettered(ink, narrow ? 262 : 200, CARINA_Y - 30, tipPlateWords.carina, {
      size: 17 * letter,
      face: "serif",
      italic: true,
      anchor: "end",
      rim: 5,
    }),
  );
  const wall = CAVA_X + CAVA_HALF;
  const junction = element("path", {
    d: `M${wall + 10} ${px(junctionY)}L${wall + 34} ${px(junctionY - 20)}`,
    fill: "none",
    stroke: ink.soft,
    "stroke-width": 0.9,
  });
  return group(
    { "data-part": "labels" },
    carina,
    narrow ? "" : region(wall + 14, (topY + junctionY) / 2 - 30, tipPlateWords.cava),
    junction,
    region(wall + 38, junctionY - 22, tipPlateWords.junction),
    narrow ? "" : region(250, junctionY + 214, tipPlateWords.atrium, "middle"),
    narrow
      ? ""
      : element("path", {
          d: `M300 ${px(junctionY + 206)}L384 ${px(junctionY + 168)}`,
          fill: "none",
          stroke: ink.soft,
          "stroke-width": 0.9,
        }),
  );
}

/** Where the words of a tip stand: in the open lung on its own side, clear of ruler and arrow. */
function labelPlace(
  input: TipPlateInput,
  tip: Point,
  { fromX, narrow }: ChestFrame,
): { readonly at: Point; readonly anchor: "start" | "end" } {
  // a high tip's label stays under the windpipe, a deep one's over the caption
  if (input.kind === "on the way")
    return {
      at: { x: narrow ? fromX + 14 : 150, y: Math.min(Math.max(tip.y - 34, CARINA_Y + 96), 560) },
      anchor: narrow ? "start" : "end",
    };
  return {
    at: { x: narrow ? fromX + 12 : tip.x < TRACHEA_X ? 20 : 516, y: narrow ? 420 : tip.x < TRACHEA_X ? 372 : 300 },
    anchor: "start",
  };
}

/** The tip's name and depth on a leader, or its place and that no number is given. */
function tipLabel(frame: ChestFrame, input: TipPlateInput, course: readonly Point[]): string {
  const tip = course.at(-1);
  if (!tip) return "";
  const { ink, letter } = frame;
  const { at, anchor } = labelPlace(input, tip, frame);
  const elsewhere = input.kind === "elsewhere";
  const lines = elsewhere
    ? [
        { text: input.place, size: 19 * letter, weight: 700 as const },
        { text: input.why, size: 15 * letter, weight: 400 as const },
      ]
    : [
        { text: tipPlateWords.tipNow, size: 18 * letter, weight: 400 as const },
        { text: plateDepth(input.depthCm), size: 22 * letter, weight: 700 as const },
      ];
  const above = tip.y < at.y;
  const from = elsewhere
    ? { x: at.x + 34, y: above ? at.y - 22 * letter : at.y + 36 * letter }
    : { x: at.x + 14, y: at.y + 8 };
  return group(
    { "data-part": "tip-label" },
    frame.narrow && !elsewhere ? "" : leader(ink, from, tip, elsewhere ? 18 : 12),
    ...lines.map(setLine),
  );

  function setLine(line: (typeof lines)[number], index: number): string {
    return lettered(ink, at.x, at.y + index * 26 * letter, line.text, { ...line, anchor, rim: 6 });
  }
}

/** A thin line that ends at the rim of its mark. */
function leader(ink: Ink, from: Point, to: Point, clear: number): string {
  const gap = Math.hypot(to.x - from.x, to.y - from.y);
  const share = Math.max(0, 1 - clear / gap);
  const end = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  return element("path", {
    d: `M${px(from.x)} ${px(from.y)}L${px(end.x)} ${px(end.y)}`,
    stroke: ink.ink,
    "stroke-width": 1.2,
    fill: "none",
  });
}

/** A ring round a tip off the way: the one point to act on. */
function actRing({ ink }: ChestFrame, course: readonly Point[]): string {
  const tip = course.at(-1);
  return tip
    ? element("circle", {
        cx: tip.x,
        cy: tip.y,
        r: 16,
        fill: "none",
        stroke: ink.act,
        "stroke-width": 2.4,
        "data-part": "act",
      })
    : "";
}

function sides({ ink, fromX, toX, height, letter, narrow }: ChestFrame, armWords: string): string {
  const word = (x: number, text: string, anchor: "start" | "end") =>
    lettered(ink, x, narrow ? 142 : 178, text, { size: 15 * letter, weight: 700, anchor, rim: 5 });
  return group(
    { "data-part": "sides" },
    word(fromX + 12, tipPlateWords.left, "start"),
    word(toX - 12, tipPlateWords.right, "end"),
    lettered(ink, fromX + 12, height - (narrow ? 14 : 36), armWords, { size: 17 * letter, weight: 700, rim: 5 }),
    narrow
      ? ""
      : lettered(ink, 16, height - 14, `${tipPlateWords.view}; ${tipPlateWords.means}`, {
          size: 14,
          face: "serif",
          italic: true,
          colour: ink.soft,
          rim: 5,
        }),
  );
}

function tableOf(input: TipPlateInput): Figure["table"] {
  const { rows: words, columns } = tipPlateWords;
  if (input.kind === "elsewhere") return { columns, rows: [[words.place, "", `${input.place}; ${input.why}`]] };
  const { depthCm, doubtCm, targets, withdrawCm, shownCm } = input;
  const cm = (value: number) => value.toFixed(1);
  return {
    columns,
    rows: [
      [words.tip, cm(depthCm), ""],
      ...(doubtCm ? [[words.doubt, `${cm(doubtCm.low)} to ${cm(doubtCm.high)}`, ""]] : []),
      ...targets.map((one) => [
        words.target(one.name),
        one.lowCm === undefined || one.highCm === undefined
          ? cm(one.cm)
          : `${cm(one.cm)} (${cm(one.lowCm)} to ${cm(one.highCm)})`,
        one.sets ? words.sets : one.counted ? words.counted : words.notCounted,
      ]),
      ...(withdrawCm === undefined || shownCm === undefined
        ? []
        : [[words.after, cm(depthCm - withdrawCm), tipPlateWords.withdraw(shownCm)]]),
    ],
  };
}
