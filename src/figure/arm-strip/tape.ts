import {
  element,
  group,
  lettered,
  overlaps,
  segmentMeetsBox,
  widthOf,
  type Box,
  type Segment,
} from "../plate/index.ts";
import type { StripFrame } from "./strip-frame.ts";

export interface TapeWords {
  readonly lower: string;
  readonly middle: string;
  /** Where the whole name has no room. */
  readonly middleShort: string;
  readonly upper: string;
  readonly preferred: string;
}

/** The tape on the skin: thirds by texture and word, the preferred half by wash and word, centimetres above it. */
export function tape(frame: StripFrame, words: TapeWords, inTheWay: readonly Segment[]) {
  const { thirds, ink, bandTop, skinY, x, id } = frame;
  const height = skinY - bandTop;
  const span = (fromCm: number, toCm: number) => ({
    x: Math.min(x(fromCm), x(toCm)),
    width: Math.abs(x(toCm) - x(fromCm)),
  });
  const area = (part: string, fromCm: number, toCm: number, fill: string) =>
    element("rect", {
      "data-part": part,
      "data-from-cm": fromCm,
      "data-to-cm": toCm,
      ...span(fromCm, toCm),
      y: bandTop,
      height,
      fill,
    });
  const borders = [0, thirds.middleFromCm, thirds.preferredFromCm, thirds.upperFromCm, thirds.armLengthCm].map((cm) =>
    element("line", {
      "data-part": "border",
      "data-at-cm": cm,
      x1: x(cm),
      x2: x(cm),
      y1: cm === thirds.preferredFromCm ? bandTop : bandTop - 5,
      y2: skinY,
      stroke: ink.ink,
      "stroke-width": 0.9,
    }),
  );
  const names = regionNames(frame, words, inTheWay);
  return {
    boxes: names.boxes,
    svg: group(
      { "data-part": "tape" },
      area("lower-third", 0, thirds.middleFromCm, `url(#${id}-hatch)`),
      area("middle-lower-half", thirds.middleFromCm, thirds.preferredFromCm, "none"),
      area("preferred-half", thirds.preferredFromCm, thirds.upperFromCm, ink.wash),
      area("upper-third", thirds.upperFromCm, thirds.armLengthCm, `url(#${id}-stipple)`),
      element("path", {
        d: `M${x(0)} ${bandTop}H${x(thirds.armLengthCm)}`,
        stroke: ink.ink,
        "stroke-width": 0.7,
        fill: "none",
      }),
      ...borders,
      ...ticks(frame, names.boxes, inTheWay),
      names.svg,
    ),
  };
}

/** A tick at each centimetre, a figure at each fifth; a figure in the way of the needle is left out. */
function ticks(frame: StripFrame, names: readonly Box[], inTheWay: readonly Segment[]): string[] {
  const { x, bandTop, ink, type, thirds, perCm } = frame;
  const marks: string[] = [];
  for (let cm = 0; cm <= thirds.armLengthCm + 1e-9; cm += 1) {
    const fifth = cm % 5 === 0;
    marks.push(
      element("line", {
        "data-part": "tick",
        "data-at-cm": cm,
        x1: x(cm),
        x2: x(cm),
        y1: bandTop,
        y2: bandTop - (fifth ? 8 : 4),
        stroke: ink.ink,
        "stroke-width": fifth ? 1 : 0.6,
      }),
    );
    if (!fifth) continue;
    const text =
      cm === 0 || Math.abs(perCm) * 5 < 60 ? String(cm) : cm + 5 > thirds.armLengthCm ? `${cm} cm` : String(cm);
    const width = widthOf(text, { size: type.small });
    const box = { x: x(cm) - width / 2, y: bandTop - 10 - type.small, width, height: type.small };
    if (names.some((name) => overlaps(box, name)) || inTheWay.some((line) => segmentMeetsBox(line, box))) continue;
    marks.push(
      lettered(ink, x(cm), bandTop - 11, text, {
        size: type.small,
        anchor: "middle",
        colour: ink.soft,
        part: "figure",
      }),
    );
  }
  return marks;
}

/** Names of the regions above the tape, each moved aside within its region when the needle stands in its way. */
function regionNames(frame: StripFrame, words: TapeWords, inTheWay: readonly Segment[]) {
  const { thirds, x, bandTop, type, ink } = frame;
  const row = bandTop - type.small - 16;
  const upperRow = row - type.region - 5;
  const { middleFromCm: m, preferredFromCm: p, upperFromCm: u, armLengthCm: L } = thirds;
  const wanted = [
    { text: words.lower, from: 0, to: m, act: false },
    { text: words.middle, from: m, to: p, act: false },
    { text: words.preferred, from: p, to: u, act: true },
    { text: words.upper, from: u, to: L, act: false },
  ];
  const boxes: Box[] = [];
  const drawn: string[] = [];
  for (const { text: full, from, to, act } of wanted) {
    const size = type.region;
    const wide = Math.abs(x(to) - x(from));
    const text = full === words.middle && widthOf(full, { size }) * 0.9 > wide ? words.middleShort : full;
    const width = widthOf(text, { size }) * 0.9;
    const [left, right] = [Math.min(x(from), x(to)), Math.max(x(from), x(to))];
    const middle = (left + right) / 2;
    const room = Math.max(0, (right - left - width) / 2 - 3);
    const shifts = [0, 0.35, -0.35, 0.7, -0.7, 1, -1].map((share) => share * room);
    // the preferred half is never left without its word: with a bracket under it the word may stand beside its own band
    const beside = [0.6, -0.6, 0.9, -0.9, 1.3, -1.3, 1.8, -1.8].map((share) => share * width);
    const fits = (y: number, air: number, tried: readonly number[] = shifts) =>
      tried
        .map((shift) => ({ x: middle + shift - width / 2, y: y - size + 1, width, height: size + 4 }))
        .find(
          (box) =>
            !boxes.some((other) => overlaps(box, other, air)) &&
            !inTheWay.some((line) => segmentMeetsBox(line, { ...box, x: box.x - 7, width: box.width + 14 })),
        );
    const inRow = width <= right - left + 4 ? fits(row, 6) : undefined;
    const box = inRow ?? fits(upperRow, 6, act ? [...shifts, ...beside] : shifts);
    if (!box) continue;
    boxes.push(box);
    drawn.push(
      lettered(ink, box.x + width / 2, box.y + size - 1, text, {
        size,
        face: "serif",
        italic: true,
        anchor: "middle",
        colour: act ? ink.act : ink.soft,
        part: "region",
      }),
    );
    if (act && !inRow)
      drawn.push(
        element("path", {
          d: `M${left + 1} ${row + 3}V${row - 2}H${right - 1}V${row + 3}`,
          fill: "none",
          stroke: ink.act,
          "stroke-width": 0.8,
        }),
      );
  }
  return { boxes, svg: drawn.join("") };
}
