import type { wardSentences } from "../../language/index.ts";
import {
  element,
  escaped,
  lettered,
  overlaps,
  placeLabels,
  segmentMeetsBox,
  widthOf,
  withinWidth,
  type Box,
  type LabelRequest,
} from "../plate/index.ts";
import { yOf, type Frame } from "./frame.ts";

type Ward = Parameters<typeof wardSentences>[0]["wards"][number];
type Spot = readonly [x: number, y: number];

const SIZE = 13;
const DOT = 10;
const RING = 20;
/** A name takes at most this share of the plate: a longer one is cut in its middle, and the table has the whole. */
const NAME_SHARE = 0.3;
const ALL_ROUND = [
  { x: 1, y: 0 },
  { x: -1, y: 0 },
  { x: 0.8, y: -0.6 },
  { x: -0.8, y: -0.6 },
  { x: 0.8, y: 0.6 },
  { x: -0.8, y: 0.6 },
  { x: 0, y: -1 },
  { x: 0, y: 1 },
] as const;

/** A dot for each ward; those outside are ringed and named first, each with a leader, then whichever has room. */
export function wardDots(frame: Frame, wards: readonly Ward[], x: (days: number) => number): readonly string[] {
  const { ink } = frame;
  const spots = wards.map((ward) => ({
    ward,
    out: ward.stands !== "within",
    cx: x(ward.days),
    cy: yOf(frame, ward.perThousand),
  }));
  const longest = NAME_SHARE * (frame.right - frame.left);
  const nameOf = (ward: Ward, weight: 400 | 700) => withinWidth(ward.ward, longest, { size: SIZE, weight });
  const room: Box = { x: frame.left + 2, y: 2, width: frame.width - frame.left - 4, height: frame.bottom - 4 };
  const marks: Box[] = spots.map(({ out, cx, cy }) => around(cx, cy, out ? RING : DOT));
  const asked = spots.flatMap(({ ward, out, cx, cy }, at): readonly LabelRequest[] =>
    out
      ? [
          {
            key: String(at),
            anchor: { x: cx, y: cy },
            width: widthOf(nameOf(ward, 700), { size: SIZE, weight: 700 }),
            height: SIZE + 2,
            clear: RING / 2,
            directions: ALL_ROUND,
            rank: at,
          },
        ]
      : [],
  );
  const placed = new Map(placeLabels(asked, { room, boxes: marks, segments: [] }).map((label) => [label.key, label]));
  const leaders = [...placed.values()].map(({ leader }) => leader);
  const taken: Box[] = [...marks, ...[...placed.values()].map(({ box }) => box)];
  const free = (box: Box): boolean =>
    box.x >= room.x &&
    box.x + box.width <= room.x + room.width &&
    box.y >= room.y &&
    box.y + box.height <= room.y + room.height &&
    !taken.some((other) => overlaps(box, other)) &&
    !leaders.some((leader) => segmentMeetsBox(leader, box));
  return spots.map(({ ward, out, cx, cy }, at) => {
    const dot = element(
      "circle",
      {
        cx,
        cy,
        r: 4.5,
        fill: ward.judged ? ink.ink : ink.paper,
        stroke: ink.ink,
        "stroke-width": 1.5,
        "data-ward": ward.ward,
        "data-stands": ward.judged ? ward.stands : "not judged",
      },
      `<title>${escaped(ward.ward)}</title>`,
    );
    const label = placed.get(String(at));
    if (out) {
      const ring = element("circle", { cx, cy, r: 9.5, fill: "none", stroke: ink.act, "stroke-width": 2 });
      if (!label) return dot + ring;
      const { box, leader } = label;
      return (
        element("line", {
          x1: leader.from.x,
          y1: leader.from.y,
          x2: leader.to.x,
          y2: leader.to.y,
          stroke: ink.ink,
          "stroke-width": 0.7,
        }) +
        dot +
        ring +
        lettered(ink, box.x, box.y + SIZE - 1, nameOf(ward, 700), {
          size: SIZE,
          weight: 700,
          rim: 4,
          colour: ink.act,
          part: "ward",
        })
      );
    }
    const name = nameOf(ward, 400);
    const wide = widthOf(name, { size: SIZE });
    const boxAt = ([from, y]: Spot): Box => ({ x: from, y: y - SIZE, width: wide, height: SIZE + 3 });
    const places: readonly Spot[] = [
      [cx + 9, cy + 4],
      [cx - 9 - wide, cy + 4],
      [cx - wide / 2, cy - 11],
      [cx - wide / 2, cy + 9 + SIZE - 2],
    ];
    const place = places.find((one) => free(boxAt(one)));
    if (!place) return dot;
    taken.push(boxAt(place));
    return dot + lettered(ink, place[0], place[1], name, { size: SIZE, rim: 4, part: "ward" });
  });
}

const around = (cx: number, cy: number, size: number): Box => ({
  x: cx - size / 2,
  y: cy - size / 2,
  width: size,
  height: size,
});
