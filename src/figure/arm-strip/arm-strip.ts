import { isMissing } from "../../core/missing/index.ts";
import { armStripSentence, plateLabel, plateWords } from "../../language/index.ts";
import {
  element,
  group,
  lettered,
  plate,
  px,
  segmentMeetsBox,
  textures,
  widthOf,
  type Figure,
} from "../plate/index.ts";
import { armBody, placeNames } from "./arm-body.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";
import { alternativeDrawing, needleDrawing, needleLine } from "./needle-drawing.ts";
import { pressLayer } from "./press-layer.ts";
import { stationMarks } from "./station-marks.ts";
import { frameOf, type StripFrame } from "./strip-frame.ts";
import { allowedY, insideLabels, pastY } from "./strip-labels.ts";
import { stripTable } from "./strip-table.ts";
import { tape } from "./tape.ts";
import { runsOf, veinBand, type VeinSlice } from "./vein-band.ts";

/**
 * The plate of one arm: the tape on the skin with its thirds, the vein under it at its true place, the needle between.
 * Drawn as the patient sees the arm: a right arm has its elbow on the right, a left arm on the left.
 * Scales to read back: x = data-origin + cm * data-per-cm, y = data-depth-origin + mm * data-per-mm.
 */
export function armStrip(input: ArmStripInput): Figure {
  const frame = frameOf(input);
  const runs = runsOf(frame, input);
  const needle = input.chosen ? [needleLine(frame, input.chosen)] : [];
  const skin = skinLabel(frame, input);
  const onSkin = tape(frame, plateWords.tape, [...needle, ...skin.lines]);
  const inside = insideLabels(frame, input, runs);
  const sentence = armStripSentence({
    arm: input.armWords,
    lengthCm: input.armLengthCm,
    skinCm: input.chosen?.skinExitCm,
    veinCm: input.chosen?.veinEntryCm,
    vein: input.veinWords,
    depthTimes: frame.depthTimes,
  });
  const svg = plate(
    {
      id: input.id,
      kind: "arm-strip",
      width: frame.width,
      height: frame.height,
      title: input.armWords,
      description: sentence,
      scales: {
        "data-per-cm": frame.perCm,
        "data-origin": frame.originX,
        "data-per-mm": frame.perMm,
        "data-depth-origin": frame.skinY,
      },
    },
    textures(input.id, frame.ink),
    armBody(frame),
    depthScale(frame),
    onSkin.svg,
    veinBand(frame, runs),
    alternativeDrawing(frame, input),
    stationMarks(frame),
    allowedMark(frame, input, runs),
    ...input.pastLines.map(({ atCm }) => (isMissing(atCm) ? "" : pastMark(frame, atCm))),
    needleDrawing(frame, input, runs),
    inside.svg,
    skin.svg,
    placeNames(frame, { ...plateWords.places, arm: input.armWords }),
    input.interactive ? pressLayer(frame, runs) : "",
  );
  return { svg, sentence, table: stripTable(frame, input) };
}

/** The stretch of entries that stand as well as the chosen one. */
function allowedMark(frame: StripFrame, input: ArmStripInput, runs: readonly (readonly VeinSlice[])[]): string {
  const { allowed } = input;
  if (!allowed) return "";
  const y = allowedY(frame, input, runs);
  return element("path", {
    "data-part": "allowed",
    "data-from-cm": allowed.fromCm,
    "data-to-cm": allowed.toCm,
    d: `M${px(frame.x(allowed.fromCm))} ${px(y - 6)}V${px(y)}H${px(frame.x(allowed.toCm))}V${px(y - 6)}`,
    fill: "none",
    stroke: frame.ink.ink,
    "stroke-width": 1.6,
  });
}

/** A line that was here before: a small cross under the skin. */
function pastMark(frame: StripFrame, atCm: number): string {
  const [x, y] = [frame.x(atCm), pastY(frame)];
  return element("path", {
    "data-part": "past",
    "data-at-cm": atCm,
    d: `M${px(x)} ${px(y - 5)}v10m-5 -5h10`,
    fill: "none",
    stroke: frame.ink.ink,
    "stroke-width": 1.3,
  });
}

/** Depth under the skin at the elbow end, so that a reader sees the scale the vein is drawn in. */
function depthScale(frame: StripFrame): string {
  const { ink, type, y, deepY, narrow } = frame;
  const x = frame.along(narrow ? -10 : -frame.stub * 0.42);
  const deepest = (deepY - frame.skinY) / frame.perMm;
  const marks = [0, 10, 20, 30, 40].filter((mm) => mm <= deepest);
  const anchor = frame.toArmpit === 1 ? "end" : "start";
  return group(
    { "data-part": "depth-scale" },
    element("line", { x1: x, x2: x, y1: y(0) + 16, y2: y(marks.at(-1) ?? 0), stroke: ink.soft, "stroke-width": 0.8 }),
    ...marks
      .filter((mm) => mm > 0)
      .map((mm, index, all) =>
        group(
          {},
          element("line", {
            "data-depth-mm": mm,
            x1: x - 3,
            x2: x + 3,
            y1: y(mm),
            y2: y(mm),
            stroke: ink.soft,
            "stroke-width": 0.8,
          }),
          narrow
            ? ""
            : lettered(ink, x - frame.toArmpit * 7, y(mm) + 4.5, String(mm), {
                size: type.small,
                anchor,
                colour: ink.soft,
              }),
          !narrow && index === all.length - 1
            ? lettered(ink, x - frame.toArmpit * 7, y(mm) + 19, plateWords.deep, {
                size: type.small,
                face: "serif",
                italic: true,
                anchor: "middle",
                colour: ink.soft,
              })
            : "",
        ),
      ),
  );
}

/** The number the hands need first, largest, at the hub of its needle; of a tunnel, over the exit. */
function skinLabel(frame: StripFrame, { chosen }: ArmStripInput) {
  if (!chosen) return { svg: "", lines: [] };
  const { ink, type, toArmpit, width: sheet } = frame;
  const needle = needleLine(frame, chosen);
  const text = chosen.tunnel ? plateLabel.exit(chosen.skinExitCm) : plateLabel.skin(chosen.skinExitCm);
  const how = { size: type.act, weight: 700, colour: ink.act, part: "skin-label" } as const;
  const width = widthOf(text, how);
  const y = type.act + 1;
  if (!chosen.tunnel) {
    const middle = Math.min(Math.max(needle.from.x, width / 2 + 4), sheet - width / 2 - 4);
    return { svg: lettered(ink, middle, y, text, { ...how, anchor: "middle" }), lines: [] };
  }
  const exit = { x: frame.x(chosen.skinExitCm), y: frame.skinY };
  let middle = Math.min(Math.max(exit.x - toArmpit * 10, width / 2 + 4), sheet - width / 2 - 4);
  const box = (at: number) => ({ x: at - width / 2 - 6, y: 0, width: width + 12, height: y + 8 });
  if (segmentMeetsBox({ from: { ...needle.from, y: needle.from.y - 10 }, to: needle.to }, box(middle)))
    middle = Math.min(Math.max(needle.from.x - toArmpit * (width / 2 + 16), width / 2 + 4), sheet - width / 2 - 4);
  const leader = { from: { x: exit.x, y: exit.y - 9 }, to: { x: middle, y: y + 6 } };
  return {
    svg: group(
      {},
      element("line", {
        x1: leader.from.x,
        y1: leader.from.y,
        x2: leader.to.x,
        y2: leader.to.y,
        stroke: ink.act,
        "stroke-width": 1,
      }),
      lettered(ink, middle, y, text, { ...how, anchor: "middle" }),
    ),
    lines: [leader],
  };
}
