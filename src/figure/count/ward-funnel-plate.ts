import { wardPlateWords, wardSentences } from "../../language/index.ts";
import { element, lettered, overlaps, plate, widthOf, type Box, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, frameOf, scaleOf, ticksTo, yOf, type Frame } from "./frame.ts";

type Told = Parameters<typeof wardSentences>[0];
interface Limits {
  readonly days: number;
  readonly inner: { readonly lower: number | undefined; readonly upper: number | undefined };
  readonly outer: { readonly lower: number | undefined; readonly upper: number | undefined };
}
type Spot = readonly [x: number, y: number];
type Edge = (limits: Limits) => number | undefined;

const SIZE = 13;
const OVER = 2.4;

/** Wards by their days: each a dot among the limits that chance alone keeps to, closer together as days grow. */
export function wardFunnelPlate(
  input: Told & {
    readonly id: string;
    readonly title: string;
    readonly perThousand: number;
    readonly curve: readonly Limits[];
    readonly wideCurve: readonly Limits[];
    readonly width: number;
    readonly ink: Ink;
  },
): Figure {
  const { id, title, wards, curve, wideCurve, width, ink, perThousand } = input;
  const sentence = `${title}: ${wardSentences(input).join(" ")}`;
  const rates = wards.map((ward) => ward.perThousand);
  const uppers = wards.flatMap(({ inner }) => inner.upper ?? []);
  // limits of very few days run off the scale: the table has them
  const most = Math.max(
    ...rates.map((rate) => rate * 1.15),
    Math.min(Math.max(...uppers, 0) * 1.1, perThousand * OVER),
  );
  const frame = frameOf(ink, width, most, { plot: 250, columns: 1, right: 62, named: false });
  const longest = Math.max(...wards.map(({ days }) => days));
  const x = (days: number) => frame.left + (days / (longest * 1.02)) * (frame.right - frame.left);
  const edge = (limits: readonly Limits[], of: Edge, dash: string | undefined, strokeWidth = 1) => {
    const inFrame = limits.filter((at) => (of(at) ?? Infinity) <= frame.most);
    const d = inFrame
      .map((at, k) => `${k === 0 ? "M" : "L"}${x(at.days).toFixed(1)} ${yOf(frame, of(at) as number).toFixed(1)}`)
      .join("");
    return inFrame.length < 2
      ? ""
      : element("path", { d, fill: "none", stroke: ink.ink, "stroke-width": strokeWidth, "stroke-dasharray": dash });
  };
  const edges: readonly (readonly [Edge, string | undefined])[] = [
    [({ inner }) => inner.upper, undefined],
    [({ inner }) => inner.lower, undefined],
    [({ outer }) => outer.upper, "7 4"],
    [({ outer }) => outer.lower, "7 4"],
  ];
  const base = yOf(frame, perThousand);
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: sentence },
    scaleOf(frame, wardPlateWords.unit, (value) => String(Number(value.toFixed(2)))),
    across(frame, longest, x),
    element("line", { x1: frame.left, x2: frame.right, y1: base, y2: base, stroke: ink.soft, "stroke-width": 1 }),
    lettered(ink, frame.right + 6, base + 4, wardPlateWords.all(perThousand), {
      size: 12,
      face: "serif",
      italic: true,
    }),
    ...edges.map(([of, dash]) => edge(curve, of, dash)),
    ...edges.slice(0, 2).map(([of]) => edge(wideCurve, of, "1.5 3.5", 2)),
    ...dots(frame, wards, x),
    captionOf(frame, wardPlateWords.under(input)),
  );
  return { svg, sentence, table: { columns: wardPlateWords.columns, rows: wardPlateWords.rows(wards) } };
}

/** Days under the axis: the denominator of every dot. */
function across(frame: Frame, longest: number, x: (days: number) => number): string {
  const { ink, bottom, right } = frame;
  const words = lettered(ink, right, bottom + 36, wardPlateWords.across, {
    size: 12,
    face: "serif",
    italic: true,
    anchor: "end",
    colour: ink.soft,
  });
  return (
    ticksTo(longest)
      .map(
        (days) =>
          element("line", { x1: x(days), x2: x(days), y1: bottom, y2: bottom + 5, stroke: ink.ink }) +
          lettered(ink, x(days), bottom + 19, days.toLocaleString("en-GB"), { size: 12, anchor: "middle" }),
      )
      .join("") + words
  );
}

/** A dot for each ward, its name where no other stands; a ward outside is ringed and always named. */
function dots(frame: Frame, wards: Told["wards"], x: (days: number) => number): readonly string[] {
  const { ink } = frame;
  const taken: Box[] = wards.map((ward) => ({
    x: x(ward.days) - 5,
    y: yOf(frame, ward.perThousand) - 5,
    width: 10,
    height: 10,
  }));
  const outsideFirst = [...wards].sort((a, b) => Number(b.stands !== "within") - Number(a.stands !== "within"));
  return outsideFirst.map((ward) => {
    const out = ward.stands !== "within";
    const [cx, cy] = [x(ward.days), yOf(frame, ward.perThousand)];
    const dot = element("circle", {
      cx,
      cy,
      r: 4.5,
      fill: ward.judged ? ink.ink : ink.paper,
      stroke: ink.ink,
      "stroke-width": 1.5,
      "data-ward": ward.ward,
      "data-stands": ward.judged ? ward.stands : "not judged",
    });
    const ring = out ? element("circle", { cx, cy, r: 9.5, fill: "none", stroke: ink.act, "stroke-width": 2 }) : "";
    const weight = out ? 700 : 400;
    const wide = widthOf(ward.ward, { size: SIZE, weight });
    const gap = out ? 14 : 9;
    const left: Spot = [cx - gap - wide, cy + 4];
    const places: readonly Spot[] = [
      [cx + gap, cy + 4],
      left,
      [cx - wide / 2, cy - gap - 2],
      [cx - wide / 2, cy + gap + SIZE - 2],
    ];
    const boxAt = ([from, y]: Spot): Box => ({
      x: from,
      y: y - SIZE,
      width: wide,
      height: SIZE + 3,
    });
    const inside = (box: Box) => box.x >= frame.left && box.x + box.width <= frame.width - 2 && box.y >= 0;
    const place = places.find((at) => inside(boxAt(at)) && !taken.some((box) => overlaps(box, boxAt(at))));
    if (place) taken.push(boxAt(place));
    else if (!out) return dot;
    const [from, y] = place ?? left;
    const name = lettered(ink, from, y, ward.ward, { size: SIZE, weight, rim: 4, ...(out && { colour: ink.act }) });
    return dot + ring + name;
  });
}
