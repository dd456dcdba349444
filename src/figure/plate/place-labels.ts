import type { Point } from "./curve.ts";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A line that a label keeps off. */
export interface Segment {
  readonly from: Point;
  readonly to: Point;
}

export interface LabelRequest {
  readonly key: string;
  readonly anchor: Point;
  readonly width: number;
  readonly height: number;
  /** Space between the mark's middle and the near end of the leader. */
  readonly clear: number;
  /** Directions to try, in order, as unit steps; y grows downward. */
  readonly directions: readonly Point[];
  /** Lower is placed first. */
  readonly rank: number;
}

export interface PlacedLabel {
  readonly key: string;
  readonly box: Box;
  readonly leader: Segment;
}

const REACHES = [16, 26, 38, 52, 68, 86, 108, 132, 160];
const AIR = 4;

export const overlaps = (a: Box, b: Box, air = 0): boolean =>
  a.x < b.x + b.width + air && b.x < a.x + a.width + air && a.y < b.y + b.height + air && b.y < a.y + a.height + air;

const side = (o: Point, a: Point, b: Point) => (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);

export function segmentsCross(a: Segment, b: Segment): boolean {
  return (
    side(a.from, a.to, b.from) * side(a.from, a.to, b.to) < 0 &&
    side(b.from, b.to, a.from) * side(b.from, b.to, a.to) < 0
  );
}

const within = (p: Point, box: Box) =>
  p.x > box.x && p.x < box.x + box.width && p.y > box.y && p.y < box.y + box.height;

export function segmentMeetsBox(segment: Segment, box: Box): boolean {
  if (within(segment.from, box) || within(segment.to, box)) return true;
  const corners = [
    { x: box.x, y: box.y },
    { x: box.x + box.width, y: box.y },
    { x: box.x + box.width, y: box.y + box.height },
    { x: box.x, y: box.y + box.height },
  ] as const;
  return corners.some((corner, index) =>
    segmentsCross(segment, { from: corner, to: corners[(index + 1) % 4] as Point }),
  );
}

const grown = (box: Box, by: number): Box => ({
  x: box.x - by,
  y: box.y - by,
  width: box.width + 2 * by,
  height: box.height + 2 * by,
});

interface Taken {
  readonly boxes: readonly Box[];
  readonly segments: readonly Segment[];
  readonly placed: readonly PlacedLabel[];
}

function free(label: { readonly box: Box; readonly leader: Segment }, room: Box, taken: Taken): boolean {
  const { box, leader } = label;
  if (box.x < room.x || box.x + box.width > room.x + room.width) return false;
  if (box.y < room.y || box.y + box.height > room.y + room.height) return false;
  if (taken.boxes.some((other) => overlaps(box, other, AIR))) return false;
  const air = grown(box, AIR);
  if (taken.segments.some((segment) => segmentMeetsBox(segment, air))) return false;
  return !taken.placed.some(
    (other) =>
      overlaps(box, other.box, AIR) ||
      segmentMeetsBox(other.leader, air) ||
      segmentMeetsBox(leader, grown(other.box, 1)) ||
      segmentsCross(leader, other.leader),
  );
}

function at(
  { anchor, width, height, clear }: LabelRequest,
  to: Point,
  reach: number,
): Pick<PlacedLabel, "box" | "leader"> {
  const tip = { x: anchor.x + to.x * (clear + reach), y: anchor.y + to.y * (clear + reach) };
  const x = to.x > 0.3 ? tip.x + 3 : to.x < -0.3 ? tip.x - width - 3 : tip.x - width / 2;
  const level = Math.abs(to.y) <= 0.3;
  // beside its mark a label's leader points at its first line; above or below, at its edge
  const y = level ? tip.y - height / 2 : to.y > 0 ? tip.y - (Math.abs(to.x) > 0.3 ? height / 2 : -2) : tip.y - height;
  const start = { x: anchor.x + to.x * clear, y: anchor.y + to.y * clear };
  return { box: { x, y, width, height }, leader: { from: start, to: tip } };
}

/** The nearest free place anywhere in the room, for a label whose neighbourhood is full. */
function anywhere(request: LabelRequest, room: Box, taken: Taken): Pick<PlacedLabel, "box" | "leader"> | undefined {
  let best: { readonly label: Pick<PlacedLabel, "box" | "leader">; readonly far: number } | undefined;
  for (let y = room.y; y + request.height <= room.y + room.height; y += 6) {
    for (let x = room.x; x + request.width <= room.x + room.width; x += 8) {
      const box = { x, y, width: request.width, height: request.height };
      const near = {
        x: Math.min(Math.max(request.anchor.x, x - 3), x + request.width + 3),
        y: Math.min(Math.max(request.anchor.y, y - 1), y + request.height + 1),
      };
      const far = Math.hypot(near.x - request.anchor.x, near.y - request.anchor.y);
      if (far <= request.clear || (best && far >= best.far)) continue;
      const share = request.clear / far;
      const from = {
        x: request.anchor.x + (near.x - request.anchor.x) * share,
        y: request.anchor.y + (near.y - request.anchor.y) * share,
      };
      const label = { box, leader: { from, to: near } };
      if (free(label, room, taken)) best = { label, far };
    }
  }
  return best?.label;
}

/**
 * Sets labels so that none touches another, a line, a leader or anything in the way. The most important come first and
 * take the nearest free place; a label that finds none is left out, and the figure's table still says it.
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  around: { readonly room: Box; readonly boxes: readonly Box[]; readonly segments: readonly Segment[] },
): readonly PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  for (const request of [...requests].sort((a, b) => a.rank - b.rank)) {
    const taken = { boxes: around.boxes, segments: around.segments, placed };
    const tries = REACHES.flatMap((reach) => request.directions.map((to) => at(request, to, reach)));
    const found = tries.find((label) => free(label, around.room, taken)) ?? anywhere(request, around.room, taken);
    if (found) placed.push({ key: request.key, ...found });
  }
  return placed;
}
