import { isMissing } from "../../core/missing/index.ts";
import { plateLabel, plateWords, veinName } from "../../language/index.ts";
import {
  element,
  group,
  lettered,
  placeLabels,
  widthOf,
  type Box,
  type LabelRequest,
  type Lettering,
  type PlacedLabel,
  type Point,
  type Segment,
} from "../plate/index.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";
import { alternativesHere, catheterInVein, needleLine } from "./needle-drawing.ts";
import { besideY, gapReason, refusedY, wallsOf } from "./station-marks.ts";
import type { StripFrame } from "./strip-frame.ts";
import type { VeinSlice } from "./vein-band.ts";

interface Line {
  readonly text: string;
  readonly how: Lettering;
}

interface Wanted {
  readonly key: string;
  readonly anchor: Point;
  readonly clear: number;
  readonly directions: readonly Point[];
  readonly rank: number;
  readonly lines: readonly Line[];
}

const BELOW = (to: 1 | -1): readonly Point[] => [
  { x: -0.55 * to, y: 0.84 },
  { x: 0, y: 1 },
  { x: 0.55 * to, y: 0.84 },
  { x: -0.9 * to, y: 0.44 },
  { x: 0.9 * to, y: 0.44 },
  { x: -0.98 * to, y: 0 },
  { x: 0.98 * to, y: 0 },
  { x: -0.7 * to, y: -0.7 },
  { x: 0.7 * to, y: -0.7 },
];

/** Everything written inside the arm. What is drawn is in the way; the plate never writes across a mark. */
export function insideLabels(frame: StripFrame, input: ArmStripInput, runs: readonly (readonly VeinSlice[])[]) {
  const wanted = [...wantedLabels(frame, input, runs)].map((label) => ({ label, ...sizeOf(label.lines) }));
  const requests: readonly LabelRequest[] = wanted.map(({ label, width, height }) => ({ ...label, width, height }));
  const room: Box = {
    x: 3,
    y: frame.skinY + 6,
    width: frame.width - 6,
    height: frame.bottomY - (frame.narrow ? 46 : 54) - (frame.skinY + 6),
  };
  const placed = placeLabels(requests, {
    room,
    boxes: drawnBoxes(frame, input, runs),
    segments: drawnLines(frame, input),
  });
  const svg = placed.map((one) => {
    const found = wanted.find(({ label }) => label.key === one.key);
    return found ? written(frame, one, found.label.lines) : "";
  });
  return { svg: group({ "data-part": "labels" }, ...svg), placed, requests };
}

function* wantedLabels(
  frame: StripFrame,
  input: ArmStripInput,
  runs: readonly (readonly VeinSlice[])[],
): Generator<Wanted> {
  const { type, ink, toArmpit } = frame;
  const { chosen, allowed } = input;
  const quiet = { size: type.small, colour: ink.soft } as const;
  const region = { size: type.region, face: "serif", italic: true } as const;
  const below = BELOW(toArmpit);
  if (chosen)
    yield {
      key: "vein",
      anchor: { x: frame.x(chosen.veinEntryCm), y: frame.y(chosen.depthMm) },
      clear: 9,
      directions: below,
      rank: 0,
      lines: [
        { text: plateLabel.vein(chosen.veinEntryCm), how: { size: type.act - 3, weight: 700, colour: ink.act } },
        { text: plateLabel.wideAndDeep(chosen.diameterMm, chosen.depthMm), how: { size: type.label } },
      ],
    };
  if (chosen?.tunnel)
    yield {
      key: "needle-in",
      anchor: { x: frame.x(chosen.needleSkinCm), y: frame.skinY },
      clear: 7,
      directions: [{ x: 0.7 * toArmpit, y: 0.7 }, ...below],
      rank: 1,
      lines: [{ text: plateLabel.needleIn(chosen.needleSkinCm), how: { size: type.label } }],
    };
  for (const station of frame.profile?.ordered ?? []) {
    const reason = gapReason(station);
    const walls = wallsOf(frame, station);
    if (reason)
      yield {
        key: `gap-${station.atCm}`,
        anchor: { x: frame.x(station.atCm), y: walls ? (walls.front + walls.back) / 2 : refusedY(frame) },
        clear: 9,
        directions: below,
        rank: 2,
        lines: [{ text: plateWords.gap[reason], how: region }],
      };
  }
  if (allowed)
    yield {
      key: "allowed",
      anchor: { x: (frame.x(allowed.fromCm) + frame.x(allowed.toCm)) / 2, y: allowedY(frame, input, runs) },
      clear: 5,
      directions: below.slice(0, 5),
      rank: 3,
      lines: [{ text: plateLabel.allowed(allowed.fromCm, allowed.toCm), how: { size: type.label } }],
    };
  for (const line of input.pastLines) {
    if (isMissing(line.atCm)) continue;
    yield {
      key: `past-${line.year}-${line.atCm}`,
      anchor: { x: frame.x(line.atCm), y: pastY(frame) },
      clear: 7,
      directions: below,
      rank: 4,
      lines: [{ text: plateLabel.past(line.year), how: quiet }],
    };
  }
  const longest = runs.toSorted((a, b) => spanOf(b) - spanOf(a))[0];
  const name = longest?.[Math.floor(longest.length * 0.16)];
  if (name)
    yield {
      key: "vein-name",
      anchor: { x: frame.x(name.cm), y: frame.y(name.frontMm + name.diameterMm) },
      clear: 1,
      directions: below,
      rank: 5,
      lines: [{ text: input.veinWords, how: region }],
    };
  const neighbours = (key: "artery" | "nerve") =>
    (frame.profile?.ordered ?? []).filter((station) =>
      key === "artery" ? station.artery === "beside" : station.nerveBeside === true,
    );
  for (const key of ["artery", "nerve"] as const) {
    const first = neighbours(key)[0];
    if (first)
      yield {
        key,
        anchor: {
          x: frame.x(first.atCm) + (key === "nerve" && first.artery === "beside" ? 14 : 0),
          y: besideY(frame, first),
        },
        clear: 9,
        directions: below,
        rank: 6,
        lines: [{ text: plateWords[key], how: region }],
      };
  }
  if (!frame.narrow)
    for (const one of alternativesHere(input))
      yield {
        key: `next-${one.vein}`,
        anchor: { x: frame.x(one.veinEntryCm), y: frame.y(one.depthMm) },
        clear: 6,
        directions: below,
        rank: 7,
        lines: [{ text: plateLabel.nextBest(veinName[one.vein] ?? one.vein), how: { ...region, colour: ink.soft } }],
      };
}

const spanOf = (run: readonly VeinSlice[]) => (run.at(-1)?.cm ?? 0) - (run[0]?.cm ?? 0);

const sizeOf = (lines: readonly Line[]) => ({
  width: Math.max(...lines.map(({ text, how }) => widthOf(text, how) * (how.face === "serif" ? 0.92 : 1))),
  height: lines.reduce((sum, { how }) => sum + how.size * 1.24, 0),
});

function written({ ink }: StripFrame, { key, box, leader }: PlacedLabel, lines: readonly Line[]): string {
  let y = box.y;
  const toLeft = leader.to.x >= box.x + box.width - 1;
  const toRight = leader.to.x <= box.x + 1;
  const [anchor, x] = toLeft
    ? (["end", box.x + box.width] as const)
    : toRight
      ? (["start", box.x] as const)
      : (["middle", box.x + box.width / 2] as const);
  const text = lines.map(({ text, how }) => {
    y += how.size * 1.24;
    return lettered(ink, x, y - how.size * 0.28, text, { ...how, anchor, rim: 3 });
  });
  return group(
    { "data-label": key },
    element("line", {
      "data-part": "leader",
      x1: leader.from.x,
      y1: leader.from.y,
      x2: leader.to.x,
      y2: leader.to.y,
      stroke: ink.ink,
      "stroke-width": 0.75,
    }),
    ...text,
  );
}

/** Where the bracket of the allowed entries stands: just under the deepest back wall it spans. */
export function allowedY(
  frame: StripFrame,
  { allowed }: ArmStripInput,
  runs: readonly (readonly VeinSlice[])[],
): number {
  const under = runs
    .flat()
    .filter(({ cm }) => allowed && cm >= allowed.fromCm - 0.2 && cm <= allowed.toCm + 0.2)
    .map(({ frontMm, diameterMm, doubtMm }) => frame.y(frontMm + diameterMm + doubtMm / 2));
  return Math.max(frame.skinY + 30, ...under) + 12;
}

export const pastY = (frame: StripFrame) => frame.skinY + 14;

function drawnBoxes(frame: StripFrame, input: ArmStripInput, runs: readonly (readonly VeinSlice[])[]): Box[] {
  const boxes: Box[] = [];
  for (const run of runs) {
    for (let index = 0; index < run.length; index += 3) {
      const slice = run[index] as VeinSlice;
      const next = run[Math.min(index + 3, run.length - 1)] as VeinSlice;
      const [a, b] = [frame.x(slice.cm), frame.x(next.cm)];
      const top = frame.y(Math.min(slice.frontMm - slice.doubtMm / 2, next.frontMm - next.doubtMm / 2));
      const bottom = frame.y(
        Math.max(
          slice.frontMm + slice.diameterMm + slice.doubtMm / 2,
          next.frontMm + next.diameterMm + next.doubtMm / 2,
        ),
      );
      boxes.push({ x: Math.min(a, b) - 2, y: top, width: Math.abs(b - a) + 4, height: bottom - top });
    }
  }
  for (const station of frame.profile?.ordered ?? []) {
    const x = frame.x(station.atCm);
    if (station.artery === "beside" || station.artery === "in front" || station.nerveBeside === true)
      boxes.push({
        x: x - 8,
        y: besideY(frame, station) - 8,
        width: station.nerveBeside === true ? 30 : 16,
        height: 16,
      });
    if (gapReason(station) && !wallsOf(frame, station))
      boxes.push({ x: x - 6, y: refusedY(frame) - 6, width: 12, height: 12 });
  }
  for (const { atCm } of input.pastLines)
    if (!isMissing(atCm)) boxes.push({ x: frame.x(atCm) - 6, y: pastY(frame) - 6, width: 12, height: 12 });
  if (input.allowed) {
    const [a, b] = [frame.x(input.allowed.fromCm), frame.x(input.allowed.toCm)];
    boxes.push({ x: Math.min(a, b), y: allowedY(frame, input, runs) - 7, width: Math.abs(b - a), height: 8 });
  }
  const { chosen } = input;
  if (chosen) {
    boxes.push({ x: frame.x(chosen.veinEntryCm) - 9, y: frame.y(chosen.depthMm) - 9, width: 18, height: 18 });
    for (const { x, y } of catheterInVein(frame, chosen, runs)) boxes.push({ x: x - 2, y: y - 2, width: 4, height: 4 });
    if (chosen.tunnel) {
      const [a, b] = [frame.x(chosen.tunnel.exitCm), frame.x(chosen.tunnel.needleSkinCm)];
      boxes.push({ x: Math.min(a, b), y: frame.skinY, width: Math.abs(b - a), height: 20 });
    }
  }
  return boxes;
}

function drawnLines(frame: StripFrame, input: ArmStripInput): Segment[] {
  const { chosen } = input;
  const others = alternativesHere(input).map((one) => ({
    from: { x: frame.x(one.needleSkinCm), y: frame.skinY },
    to: { x: frame.x(one.veinEntryCm), y: frame.y(one.depthMm) },
  }));
  if (!chosen) return others;
  const needle = needleLine(frame, chosen);
  const edge = (cm: number) => ({ from: { x: frame.x(cm), y: frame.skinY }, to: needle.to });
  return [needle, edge(chosen.skinBand.fromCm), edge(chosen.skinBand.toCm), ...others];
}
